#include "storage/register/tags_pdf.h"

#include <qrencode.h>

#include <algorithm>
#include <memory>

#include "engine/events/tag.h"
#include "engine/farm/queries.h"
#include "storage/register/pdf_paper.h"

namespace storage {
namespace {

constexpr double kWide = 62, kHigh = 60;  // mm of one tag
constexpr std::size_t kColumns = 4, kLines = 3;
constexpr double kCode = 42;                         // mm of a code with its light edge
constexpr int kLightEdge = 4;                        // modules, ISO/IEC 18004
constexpr double kName = 15, kLeast = 5, kYard = 8;  // points
constexpr double kNameHigh = 10, kYardHigh = 7;      // mm
constexpr double kCutLine = 0.15;

struct DropCode {
  void operator()(QRcode* code) const { QRcode_free(code); }
};
using Code = std::unique_ptr<QRcode, DropCode>;

Code code_of(engine::ColonyId colony) {
  return Code(QRcode_encodeString(engine::tag_of(colony).c_str(), 0, QR_ECLEVEL_Q, QR_MODE_8, 1));
}

// Dark modules that lie beside each other are one bar, so that no viewer shows seams.
void draw_code(Paper& paper, const QRcode& code, double x, double y) {
  const double module = kCode / (code.width + 2 * kLightEdge);
  for (int line = 0; line < code.width; ++line) {
    const unsigned char* row = code.data + static_cast<std::ptrdiff_t>(line) * code.width;
    for (int from = 0; from < code.width;) {
      int to = from;
      while (to < code.width && (row[to] & 1) != 0) ++to;
      if (to > from)
        paper.ink(x + (kLightEdge + from) * module, y + (kLightEdge + line) * module,
                  (to - from) * module, module);
      from = std::max(to, from + 1);
    }
  }
}

void draw_tag(Paper& paper, const engine::Farm& farm, const engine::Colony& colony, double x,
              double y) {
  paper.frame(x, y, kWide, kHigh, kCutLine);
  if (const Code code = code_of(colony.id)) draw_code(paper, *code, x + (kWide - kCode) / 2, y);
  const double side = 3;
  const std::string name = "<b>" + markup_name(colony.name) + "</b>";
  double points = kName;
  while (points > kLeast && paper.text_height(name, kWide - 2 * side, points) > kNameHigh)
    points -= 1;
  // A name that leaves its tag would lie in the light edge of the code below.
  paper.text_within(name, x + side, y + kCode, kWide - 2 * side, kNameHigh, points);
  paper.text_within(markup_name(farm.yards.at(colony.yard).name), x + side, y + kHigh - kYardHigh,
                    kWide - 2 * side, kYardHigh - 1, kYard);
}

std::vector<const engine::Colony*> to_tag(const engine::Farm& farm,
                                          std::optional<engine::YardId> only) {
  std::vector<const engine::Colony*> all;
  for (const engine::Yard* yard : engine::yards(farm)) {
    if (only && yard->id != *only) continue;
    for (const engine::Colony* colony : engine::colonies_of(farm, yard->id)) all.push_back(colony);
  }
  return all;
}

}  // namespace

std::string tags_pdf(const engine::Farm& farm, std::optional<engine::YardId> yard,
                     const engine::Stamp& as_of) {
  const auto all = to_tag(farm, yard);
  if (all.empty()) return {};
  Paper paper({"Hive tags", farm.setup.operator_name, engine::rfc3339(as_of)});
  const double left = (kSheetWide - kColumns * kWide) / 2, top = (kSheetHigh - kLines * kHigh) / 2;
  constexpr std::size_t kOnSheet = kColumns * kLines;
  for (std::size_t i = 0; i < all.size(); ++i) {
    const std::size_t place = i % kOnSheet, column = place % kColumns, line = place / kColumns;
    draw_tag(paper, farm, *all[i], left + static_cast<double>(column) * kWide,
             top + static_cast<double>(line) * kHigh);
    if (place + 1 == kOnSheet || i + 1 == all.size()) paper.end_page();
  }
  return paper.finish();
}

}  // namespace storage
