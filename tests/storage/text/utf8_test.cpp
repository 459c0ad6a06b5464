#include "storage/text/utf8.h"

#include <doctest/doctest.h>

#include <string>
#include <vector>

namespace utf8_test {

// The first and last sequences of each row of table 3-7, "Well-Formed UTF-8 Byte Sequences", of the
// Unicode Standard (the same set as the grammar of RFC 3629, section 4).
TEST_CASE("each well-formed byte sequence is UTF-8") {
  for (const char* text :
       {"\x01", "\x7f", "\xc2\x80", "\xdf\xbf", "\xe0\xa0\x80", "\xe0\xbf\xbf", "\xe1\x80\x80",
        "\xec\xbf\xbf", "\xed\x80\x80", "\xed\x9f\xbf", "\xee\x80\x80", "\xef\xbf\xbf",
        "\xf0\x90\x80\x80", "\xf0\xbf\xbf\xbf", "\xf1\x80\x80\x80", "\xf3\xbf\xbf\xbf",
        "\xf4\x80\x80\x80", "\xf4\x8f\xbf\xbf"}) {
    CAPTURE(text);
    CHECK(storage::first_line_not_utf8(std::string("a\n") + text) == 0);
  }
  CHECK(storage::first_line_not_utf8("") == 0);
  CHECK(storage::first_line_not_utf8(std::string(1, '\0')) == 0);
}

// What stands one beside those rows: overlong forms, surrogates, beyond U+10FFFF, and sequences
// that are cut.
TEST_CASE("what is not well formed is named by its line") {
  for (const char* text :
       {"\x80", "\xbf", "\xc0\x80", "\xc1\xbf", "\xc2\x7f", "\xc2\xc0", "\xe0\x9f\xbf",
        "\xed\xa0\x80", "\xed\xbf\xbf", "\xf0\x8f\xbf\xbf", "\xf4\x90\x80\x80", "\xf5\x80\x80\x80",
        "\xff", "\xc2", "\xe1\x80", "\xf1\x80\x80", "\xe1\x80\x41"}) {
    CAPTURE(text);
    CHECK(storage::first_line_not_utf8(std::string("a\nb\n") + text) == 3);
    CHECK(storage::first_line_not_utf8(std::string("\xc3\xa9\n") + text + "\nb\n") == 2);
  }
}

}  // namespace utf8_test
