#include "ui/commands/say.h"

#include <doctest/doctest.h>

#include <string>

namespace say_test {

namespace {

struct Shown {
  std::string name, text, want;
};
// ECMA-48 names the control functions C0 and C1; RFC 3629 says which bytes are UTF-8; the Unicode
// bidirectional algorithm (UAX 9) the marks that turn the direction.
const Shown kShown[] = {
    {"plain", "Thistle Bank, B3", "Thistle Bank, B3"},
    {"letters of others", "Völkchen № 北 🐝", "Völkchen № 北 🐝"},
    {"an escape sequence", "a\x1b[31mb", "a?[31mb"},
    {"a title", "\x1b]0;x\x07", "?]0;x?"},
    {"a line end", "one\ntwo\r\tthree", "one?two??three"},
    {"delete", "a\x7f", "a?"},
    {"C1 in two bytes",
     "a\xc2\x9b"
     "31m",
     "a?31m"},
    {"C1 in one byte",
     "a\x9b"
     "31m",
     "a?31m"},
    {"direction",
     "a\xe2\x80\xae"
     "b\xe2\x81\xa6",
     "a?b?"},
    {"line separators",
     "a\xe2\x80\xa8"
     "b\xe2\x80\xa9",
     "a?b?"},
    {"cut off", "a\xe5\x8c", "a??"},
    {"too long a form", "\xc0\x9b\xe0\x82\x9b", "?????"},
    {"half a pair", "\xed\xa0\x80", "???"},
    {"beyond Unicode", "\xf4\x90\x80\x80", "????"},
    {"empty", "", ""},
};

}  // namespace

TEST_CASE("what a terminal obeys is shown as a question mark") {
  for (const Shown& row : kShown) {
    INFO(row.name);
    CHECK(ui::for_terminal(row.text) == row.want);
  }
  CHECK(ui::for_terminal(std::string("a\0b", 3)) == "a?b");
  CHECK(ui::lines_for_terminal("one\ntwo\x1b") == "one\ntwo?");
}

TEST_CASE("JSON says the same with escapes") {
  CHECK(ui::json_for_terminal("{\"name\":\"a\xc2\x9b"
                              "b\xe2\x80\xae\x7f\"}\n") ==
        "{\"name\":\"a\\u009bb\\u202e\\u007f\"}\n");
  CHECK(ui::json_for_terminal("{\"name\":\"北\"}") == "{\"name\":\"北\"}");
}

}  // namespace say_test
