#include "storage/text/csv_out.h"

#include <doctest/doctest.h>

#include "storage/sheets/csv_table.h"

namespace csv_out_test {

using storage::CsvOut;

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
  };
  for (const Row& r : rows) {
    INFO(r.name);
    CsvOut out;
    out.text(r.cell);
    CHECK(out.bytes() == r.want);
  }
}

TEST_CASE("every text comes back as it was from the cell that was written") {
  for (const std::string text :
       {"A1", "", "=1+1", "'=1+1", "''=1", "'tis", "'", "''", "-1", "@x", "a,\"b\"", "\uff0bx",
        "=HYPERLINK(\"x\",\"y\")", "'@", "\u202e=1", "a\tb", "+\n+"}) {
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
  out.tenths(-25);
  out.grams({1428});
  out.empty();
  out.end_row();
  CHECK(out.bytes() == "-3,-2.5,1.428,\r\n");
}

TEST_CASE("every row ends in CRLF and an empty first cell still counts") {
  CsvOut out;
  out.text("");
  out.text("b");
  out.end_row();
  out.text("c");
  out.text("");
  out.end_row();
  CHECK(out.bytes() == ",b\r\nc,\r\n");
}

}  // namespace csv_out_test
