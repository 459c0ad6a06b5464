// The reader is held to GNU msgfmt, which makes the files.
#include "storage/language/mo_catalogue.h"

#include <doctest/doctest.h>

#include <clocale>
#include <cstdlib>
#include <filesystem>
#include <fstream>

#include "storage/disk/whole_file.h"
#include "tests/support/bag_fixture.h"

namespace mo_catalogue_test {

namespace {

constexpr char kPo[] = R"(msgid ""
msgstr ""
"Content-Type: text/plain; charset=UTF-8\n"
"Plural-Forms: nplurals=2; plural=(n != 1);\n"

msgid "{} of {}"
msgstr "{} de {}"

msgctxt "amount"
msgid "Dose"
msgstr "Dosis"

msgid "{} cloth"
msgid_plural "{} cloths"
msgstr[0] "{} paño"
msgstr[1] "{} paños"
)";

std::string mo_in(const std::string& folder) {
  const std::string file = folder + "/es/LC_MESSAGES/duskwalk.mo";
  std::filesystem::create_directories(folder + "/es/LC_MESSAGES");
  std::ofstream(folder + "/es.po") << kPo;
  REQUIRE(std::system(("msgfmt -o " + file + " " + folder + "/es.po").c_str()) == 0);
  return file;
}

}  // namespace

TEST_CASE("what msgfmt made is read, in the locale C") {
  const bags::TempFolder folder;
  mo_in(folder.path());
  REQUIRE(std::string(std::setlocale(LC_ALL, nullptr)) == "C");
  const auto read = storage::read_catalogue(folder.path(), "es");
  REQUIRE(read.ok());
  const engine::Catalogue& es = *read.value();
  CHECK(std::string(es.find(nullptr, "{} of {}")) == "{} de {}");
  CHECK(std::string(es.find("amount", "Dose")) == "Dosis");
  CHECK(es.find(nullptr, "Dose") == nullptr);
  CHECK(es.find(nullptr, "") == nullptr);
  CHECK(std::string(es.find_many("{} cloth", 1)) == "{} paño");
  for (const long n : {0L, 2L, 21L, 5'000'000'000L}) {
    CAPTURE(n);
    CHECK(std::string(es.find_many("{} cloth", n)) == "{} paños");
  }
  CHECK(std::string(std::setlocale(LC_ALL, nullptr)) == "C");
}

TEST_CASE("a catalogue that is missing, cut or no catalogue is refused in one line") {
  const bags::TempFolder folder;
  CHECK(storage::read_catalogue(folder.path(), "es").status().code() == engine::Code::NotFound);
  CHECK(storage::read_catalogue(folder.path(), "../x").status().code() == engine::Code::BadInput);
  const std::string file = mo_in(folder.path());
  const std::string whole = storage::read_whole_file(file, 1 << 20).value();
  for (std::size_t size = 0; size + 1 < whole.size(); ++size) {
    CAPTURE(size);
    std::ofstream(file, std::ios::binary | std::ios::trunc) << whole.substr(0, size);
    const auto cut = storage::read_catalogue(folder.path(), "es");
    if (cut.ok()) CHECK(cut.value()->find(nullptr, "no such text") == nullptr);
    if (size < 28) CHECK_FALSE(cut.ok());  // shorter than the file's header
  }
  std::ofstream(file, std::ios::trunc) << "no catalogue";
  CHECK(storage::read_catalogue(folder.path(), "es").status().code() == engine::Code::BadInput);
}

}  // namespace mo_catalogue_test
