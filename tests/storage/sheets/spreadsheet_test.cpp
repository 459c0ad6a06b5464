// Reading a whole text: dialects, refusals of files, hostile input. All names are invented.
#include "storage/sheets/spreadsheet.h"

#include <random>

#include "tests/support/sheet_fixture.h"

namespace spreadsheet_test {

TEST_CASE("the same sheet in every dialect gives the same farm") {
  const std::string plain = "Yard,Hive,Boxes\nBrook,B1,2\nBrook,B2,1\n";
  const auto with = [&](char delimiter, const std::string& line_end, const std::string& head) {
    std::string out = head;
    for (const char c : plain)
      out += c == ',' ? std::string(1, delimiter) : c == '\n' ? line_end : std::string(1, c);
    return out;
  };
  SheetFixture first;
  first.read(plain);
  const std::uint64_t farm = engine::state_hash(first.farm);
  for (const char delimiter : {',', ';', '\t'})
    for (const std::string& line_end : std::vector<std::string>{"\n", "\r\n", "\r"})
      for (const std::string& head : std::vector<std::string>{"", "\xef\xbb\xbf", "\n\n"}) {
        SheetFixture f;
        f.read(with(delimiter, line_end, head));
        CHECK(engine::state_hash(f.farm) == farm);
      }
}

// The line by which a sheet tells Excel its delimiter; the program obeys it and does not show it.
TEST_CASE("a line sep= before the header names the delimiter and is no row") {
  SheetFixture plain;
  plain.read("Yard,Hive,Boxes\nBrook,B1,2\n");
  const std::uint64_t farm = engine::state_hash(plain.farm);
  for (const std::string& head : std::vector<std::string>{"sep=;\n", "sep=;\r\n", "\"sep=;\"\r\n",
                                                          "\xef\xbb\xbfsep=;\r\n", "sep=;\r"}) {
    INFO(head);
    SheetFixture f;
    const auto report = f.read(head + "Yard;Hive;Boxes\nBrook;B1;2\n");
    CHECK(engine::state_hash(f.farm) == farm);
    CHECK(has(line_of(report, 2), "added: colony B1"));
  }
  SheetFixture f;
  CHECK_FALSE(f.ask("sep=;\n").ok());
  CHECK_FALSE(f.ask("sep=;").ok());
}

TEST_CASE("columns may come in any order") {
  SheetFixture a, b;
  a.read("Yard,Hive,Boxes\nBrook,B1,2\n");
  b.read("boxes,HIVES,yard\n2,B1,Brook\n");
  CHECK(engine::state_hash(a.farm) == engine::state_hash(b.farm));
}

TEST_CASE("a file that cannot be read gives one clear line and no event") {
  struct Row {
    std::string text, says;
  };
  const Row rows[] = {
      {"PK\x03\x04rest", "spreadsheet's own file"},
      {"Yard\nCaf\xe9\n", "line 2 is not UTF-8"},
      {"Boxes,Queen\n1,blue\n", "no column is called"},
      {"\"Yard,Hive\nBrook,B1\n", "row 1: a quote"},
      {"", "is empty"},
  };
  for (const Row& r : rows) {
    INFO(r.says);
    SheetFixture f;
    const auto reading = f.ask(r.text);
    CHECK(reading.status().code() == engine::Code::BadInput);
    CHECK_MESSAGE(has(reading.status().message(), r.says), reading.status().message());
    CHECK_FALSE(has(reading.status().message(), "\n"));
  }
}

TEST_CASE("what comes before an open quote is taken, the rest is named") {
  SheetFixture f;
  const auto report = f.read("Yard,Hive\nBrook,B1\nBrook,\"B2\nBrook,B3\n");
  CHECK(line_of(report, 2) == "added: colony B1 in Brook (a new yard)");
  CHECK(has(line_of(report, 3), "refused: a quote"));
  CHECK(f.farm.colonies.size() == 1);
}

TEST_CASE("the report says what became of columns and rows") {
  SheetFixture f;
  const std::string text =
      storage::report_text(f.read("Yard,Hive,Queen,Boxes\nBrook,B1,blue,2\nBrook,B2,,12\n"));
  CHECK(has(text, "This sheet holds colonies.\n"));
  CHECK(has(text, "column C \"Queen\": not known, kept in the notes\n"));
  CHECK(has(text, "row 2: added: colony B1 in Brook (a new yard)\n"));
  CHECK(has(text, "row 3: refused: brood boxes: \"12\" must be 1 to 9\n"));
  CHECK(has(text, "2 rows: 1 added, 0 changed, 0 as before, 1 refused\n"));
}

TEST_CASE("rows may ask only for one thing and the farm never changes by asking") {
  SheetFixture f;
  const auto reading = f.ask("Yard,Hive\nBrook,B1\n");
  REQUIRE(reading.ok());
  CHECK(reading.value().events.size() == 2);
  CHECK(f.farm.log.empty());
}

// A fixed seed: the same text on every machine.
TEST_CASE("random bytes and torn sheets never break the reader, and good events stay legal") {
  const std::string good =
      "Yard,Hive,Boxes,x,y,Date,Mites\nBrook,\"B \"\"1\"\"\",2,1.5,-2,2026-08-01,3\n";
  std::mt19937 random(5);
  const std::string odd = ",;\t\"\r\n=9-./\xef\xbb\xbf\xc3\xa9 yardhive";
  for (int round = 0; round < 3000; ++round) {
    std::string text = good;
    for (auto n = random() % 12; n > 0; --n)
      text.insert(random() % (text.size() + 1), 1, odd[random() % odd.size()]);
    text.resize(random() % (text.size() + 1));
    SheetFixture f;
    const auto reading = f.ask(text);
    if (!reading.ok()) continue;
    for (const engine::Body& body : reading.value().events) f.apply(body);
  }
}

}  // namespace spreadsheet_test
