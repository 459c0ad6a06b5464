#include "storage/sheets/csv_table.h"

#include <doctest/doctest.h>

#include "storage/text/utf8.h"

namespace csv_table_test {

namespace {

std::string shown(const storage::CsvTable& table) {
  std::string out;
  for (const auto& row : table.rows) {
    out += std::to_string(row.number) + ":";
    for (const auto& cell : row.cells) out += "[" + cell + "]";
  }
  return out;
}

std::string parsed(const std::string& text, char delimiter = ',') {
  return shown(storage::parse_csv(text, delimiter));
}

}  // namespace

// RFC 4180 section 2: its examples, and what common programs write besides.
TEST_CASE("cells and rows are told apart as RFC 4180 says") {
  struct Row {
    std::string text, cells;
  };
  const Row rows[] = {
      {"aaa,bbb,ccc\r\nzzz,yyy,xxx\r\n", "1:[aaa][bbb][ccc]2:[zzz][yyy][xxx]"},
      {"aaa,bbb,ccc\r\nzzz,yyy,xxx", "1:[aaa][bbb][ccc]2:[zzz][yyy][xxx]"},
      {"\"aaa\",\"b\r\nbb\",\"ccc\"\r\nzzz,yyy,xxx", "1:[aaa][b\r\nbb][ccc]2:[zzz][yyy][xxx]"},
      {"\"aaa\",\"b\"\"bb\",\"ccc\"", "1:[aaa][b\"bb][ccc]"},
      {"a,b\nc,d\n", "1:[a][b]2:[c][d]"},
      {"a,b\rc,d\r", "1:[a][b]2:[c][d]"},
      {"a,,b\n,,\n", "1:[a][][b]"},
      {"a,b,c\nd\ne,f,g,h\n", "1:[a][b][c]2:[d]3:[e][f][g][h]"},
      {"\xef\xbb\xbf"
       "a,b\n",
       "1:[a][b]"},
      {" a ,\" b \"\n", "1:[a][b]"},
      {"a\xc2\xa0,b\n", "1:[a][b]"},
      {"=SUM(A1),@x,+1,-2\n", "1:[=SUM(A1)][@x][+1][-2]"},
  };
  for (const Row& r : rows) {
    INFO(r.text);
    CHECK(parsed(r.text) == r.cells);
  }
}

TEST_CASE("blank rows are left out but counted, whatever ends the lines") {
  CHECK(parsed("a\n\nb\n") == "1:[a]3:[b]");
  CHECK(parsed("a\r\n\r\n\r\nb\r\n") == "1:[a]4:[b]");
  CHECK(parsed("a\r\rb\r") == "1:[a]3:[b]");
  CHECK(parsed("\n\na,b\n , \nc,d") == "3:[a][b]5:[c][d]");
}

TEST_CASE("semicolons and tabs split as well") {
  CHECK(parsed("a;b,c;d\n", ';') == "1:[a][b,c][d]");
  CHECK(parsed("a\t\tb c\t\n", '\t') == "1:[a][][b c][]");
}

TEST_CASE("a quote that is never closed cuts the table in its row") {
  const auto table = storage::parse_csv("a,b\nc,d\ne,\"f\ng,h\n", ',');
  CHECK(shown(table).find("1:[a][b]2:[c][d]") == 0);
  CHECK(table.cut_at == 3);
  CHECK(table.cut_why.find("never closed") != std::string::npos);
}

TEST_CASE("an endless cell, endless row and too many rows are cut, in bounded room") {
  const auto cell = storage::parse_csv("a\n\"" + std::string(40'000'000, 'x'), ',');
  CHECK(cell.cut_at == 2);
  CHECK(cell.cut_why.find("longer than any spreadsheet") != std::string::npos);
  const auto row = storage::parse_csv("a\n" + std::string(1'000'000, ','), ',');
  CHECK(row.cut_at == 2);
  const auto plain = storage::parse_csv("a\n" + std::string(1'000'000, 'x'), ',');
  CHECK(plain.cut_at == 2);
  const auto blank = storage::parse_csv("a\n" + std::string(2'000'000, '\n') + "b", ',');
  CHECK(blank.rows.size() == 1);
  CHECK(blank.cut_at == storage::kMostRows + 1);
}

TEST_CASE("what is no CSV text is said in one line with what to do") {
  struct Row {
    std::string text, says;
  };
  const Row rows[] = {
      {std::string("PK\x03\x04", 4) + "xl/workbook.xml", "spreadsheet's own file"},
      {std::string("\xd0\xcf\x11\xe0", 4), "spreadsheet's own file"},
      {std::string("\xff\xfe"
                   "a\0b\0",
                   6),
       "UTF-16"},
      {std::string("\xfe\xff\0a\0b", 6), "UTF-16"},
      {std::string("a,\0,b", 5), "zero bytes"},
      {"yard\nCaf\xe9\n", "line 2 is not UTF-8"},
      {"", "is empty"},
      {"\xef\xbb\xbf\r\n;;\r\n", "is empty"},
  };
  for (const Row& r : rows) {
    INFO(r.says);
    const std::string why = storage::not_csv(r.text);
    CHECK_MESSAGE(why.find(r.says) != std::string::npos, why);
    CHECK(why.find('\n') == std::string::npos);
  }
  CHECK(storage::not_csv("yard\nCaf\xc3\xa9\n").empty());
}

TEST_CASE("a file that is missing, a folder, or too large is said") {
  CHECK(storage::read_sheet("/no/such.csv").status().code() == engine::Code::NotFound);
  CHECK(storage::read_sheet("/tmp").status().code() == engine::Code::BadInput);
}

// RFC 3629 section 3 and 4: overlong forms, surrogates and beyond U+10FFFF are not UTF-8.
TEST_CASE("UTF-8 is told from what is not") {
  for (const std::string& good :
       std::vector<std::string>{"abc", "\xc3\xa9", "\xe2\x82\xac", "\xf0\x9f\x90\x9d",
                                "\xed\x9f\xbf", "\xf4\x8f\xbf\xbf"})
    CHECK(storage::first_line_not_utf8(good) == 0);
  for (const std::string& bad : std::vector<std::string>{
           "\x80", "\xc0\xaf", "\xe0\x80\xaf", "\xed\xa0\x80", "\xf4\x90\x80\x80",
           "\xf8\x88\x80\x80", "\xc3", "\xe2\x82", "\xf0\x9f\x90"})
    CHECK(storage::first_line_not_utf8(bad) == 1);
}

TEST_CASE("names are compared without case and without white space around and between") {
  CHECK(storage::folded("  Upper \t\n Field\xc2\xa0") == "upper field");
  CHECK(storage::folded("CAF\xc3\x89") == storage::folded("caf\xc3\xa9"));
  CHECK(storage::folded("\xc3\x97") == "\xc3\x97");
  CHECK(storage::folded("B 3") != storage::folded("B3"));
  CHECK(storage::trimmed("\xef\xbb\xbf a b \xc2\xa0") == "a b");
  CHECK(storage::one_line("a\r\nb") == "a b");
}

}  // namespace csv_table_test
