#include "storage/text/csv_out.h"

#include <doctest/doctest.h>

#include "storage/sheets/csv_table.h"

namespace csv_out_test {

using storage::CsvOut;

namespace {

std::string without_bom(const CsvOut& out) {
  REQUIRE(out.bytes().starts_with("\xef\xbb\xbf"));
  return out.bytes().substr(3);
}

}  // namespace

TEST_CASE("text cells are quoted where RFC 4180 asks, and made harmless for spreadsheets") {
  struct Row {
    std::string name, cell, want;
  };
  const Row rows[] = {
      {"plain", "A1", "A1"},
      {"empty", "", ""},
      {"comma", "a,b", "\"a,b\""},
      {"quote", "a\"b", "\"a\"\"b\""},
      {"line feed", "a\nb", "\"a\nb\""},
      {"carriage return", "a\rb", "\"a\rb\""},
      {"formula", "=1+1", "'=1+1"},
      {"plus", "+1", "'+1"},
      {"minus", "-1", "'-1"},
      {"at", "@x", "'@x"},
      {"tab", "\tx", "'\tx"},
      {"return first", "\rx", "\"'\rx\""},
      {"full-width equals", "\uff1d1", "'\uff1d1"},
      {"apostrophe and formula", "'=1", "''=1"},
      {"apostrophe alone", "'tis", "'tis"},
      {"formula in the middle", "a=1", "a=1"},
      {"formula and quote", "=\"x\"", "\"'=\"\"x\"\"\""},
      {"nul", std::string("a\0b", 3), "ab"},
      {"nul before a formula", std::string("\0=1", 3), "'=1"},
      {"whole number", "12", "12"},
      {"nought", "0", "0"},
      {"the longest number that is held exactly", "999999999999999", "999999999999999"},
      {"a longer one", "1000000000000000", "'1000000000000000"},
      {"zeros in front", "007", "'007"},
      {"point", "1.000", "'1.000"},
      {"comma", "1,5", "\"'1,5\""},
      {"point first", ".5", "'.5"},
      {"spaces between", "1 000", "'1 000"},
      {"powers of ten", "1E5", "'1E5"},
      {"an entry that reads as one", "0000001e-5", "'0000001e-5"},
      {"fraction or day", "3/4", "'3/4"},
      {"day", "12-05", "'12-05"},
      {"month of a year", "2026-05", "'2026-05"},
      {"time", "1:75", "'1:75"},
      {"percent", "50%", "'50%"},
      {"accountant's minus", "(5)", "'(5)"},
      {"apostrophe and number", "'1.000", "''1.000"},
      {"a lot that nobody reads as a day", "24-118", "24-118"},
      {"a longer one", "12345-5", "12345-5"},
      {"letters", "B3", "B3"},
      {"number with its unit", "0.176 oz", "0.176 oz"},
      {"marks alone", "- e", "'- e"},
      {"no digit", "e.e", "e.e"},
  };
  for (const Row& r : rows) {
    INFO(r.name);
    CsvOut out;
    out.text(r.cell);
    CHECK(without_bom(out) == r.want);
  }
}

TEST_CASE("every text comes back as it was from the cell that was written") {
  for (const std::string text : {"A1",
                                 "",
                                 "=1+1",
                                 "'=1+1",
                                 "''=1",
                                 "'tis",
                                 "'",
                                 "''",
                                 "-1",
                                 "@x",
                                 "a,\"b\"",
                                 "\uff0bx",
                                 "=HYPERLINK(\"x\",\"y\")",
                                 "'@",
                                 "1.000",
                                 "'1.000",
                                 "007",
                                 "12",
                                 "'12",
                                 "'",
                                 "3/4",
                                 "\u202e=1",
                                 "a\tb",
                                 "+\n+"}) {
    INFO(text);
    CsvOut out;
    out.text("first");
    out.text(text);
    out.end_row();
    const auto table = storage::parse_csv(out.bytes(), ',');
    REQUIRE(table.rows.size() == 1);
    CHECK(storage::without_mark(table.rows[0].cells.at(1)) == text);
  }
  for (const std::string text : {"\tx", "'\tx", "\r\nx", "''\rx"}) {  // our reader trims cells
    INFO(text);
    CHECK(storage::without_mark("'" + text) == text);
  }
}

TEST_CASE("numbers stay numbers, also below zero") {
  CsvOut out;
  out.number(-3);
  out.milligrams({1428});
  out.empty();
  out.end_row();
  CHECK(without_bom(out) == "-3,1428,\r\n");
}

TEST_CASE("every row ends in CRLF and an empty first cell still counts") {
  CsvOut out;
  out.text("");
  out.text("b");
  out.end_row();
  out.text("c");
  out.text("");
  out.end_row();
  CHECK(without_bom(out) == ",b\r\nc,\r\n");
}

}  // namespace csv_out_test
