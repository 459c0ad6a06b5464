// Writes the files of a bundle, register.pdf and tags.pdf, for programs of others to read:
//   write_payload hostile|changed|names|numbers|season DIR [YYYY-MM-DD]
// names: the names themselves stand in names.txt, each in hexadecimal. changed: the hostile
// evening, whose course was ended and whose come-backs were settled after.
#define DOCTEST_CONFIG_IMPLEMENT
#include <fmt/format.h>

#include <cstdio>
#include <fstream>
#include <string>

#include "engine/events/tag.h"
#include "engine/farm/queries.h"
#include "storage/register/register_files.h"
#include "storage/register/tags_pdf.h"
#include "tests/support/payload_fixture.h"

namespace {

void change(fixture::Pen& pen) {
  pen.write(engine::CourseEnded{fixture::kCourse, "counts are low"});
  for (const engine::ComeBack& back : engine::come_back_list(pen.farm))
    pen.write(engine::ComeBackSettled{back.colony, "looked fine"});
}

fixture::Pen pen_of(const std::string& which) {
  if (which == "season") return fixture::season();
  if (which == "names") return fixture::evening_of_names();
  if (which == "numbers") return fixture::evening_of_numbers();
  fixture::Pen pen = fixture::hostile_evening();
  if (which == "changed") change(pen);
  return pen;
}

std::string in_hex(const std::vector<std::string>& names) {
  std::string text;
  for (const std::string& name : names) {
    for (const char c : name) text += fmt::format("{:02x}", static_cast<unsigned char>(c));
    text += '\n';
  }
  return text;
}

}  // namespace

int main(int argc, char** argv) {
  if (argc < 3) return 2;
  doctest::Context context;  // the fixture's REQUIREs need one
  context.setAsDefaultForAssertsOutOfTestCases();
  const std::string which = argv[1];
  const fixture::Pen pen = pen_of(which);
  const engine::Farm& farm = pen.farm;
  const auto day = argc > 3 ? engine::date_from_iso(argv[3]) : std::nullopt;
  storage::DayBundle bundle = storage::bundle_of_day(farm, fixture::journal_of(farm), day);
  auto& files = bundle.files;
  files["README.html"] = bundle.readme;
  files["register.pdf"] =
      storage::register_pdf(engine::register_rows(farm, {}), storage::head_of(farm, {}, "c0ffee"));
  files["tags.pdf"] = storage::tags_pdf(farm, {}, storage::head_of(farm, {}, "").as_of);
  for (const auto& [id, colony] : farm.colonies) files["tags.txt"] += engine::tag_of(id) + "\n";
  if (which == "names") files["names.txt"] = in_hex(fixture::hostile_names());
  for (const auto& [name, bytes] : files) {
    std::ofstream file(std::string(argv[2]) + "/" + name, std::ios::binary);
    file << bytes;
    if (!file.flush()) return 1;
  }
  return 0;
}
