// Which names may go into a bundle, and which paths of a stranger's manifest are refused.
#include "storage/disk/payload_path.h"

#include <doctest/doctest.h>

namespace payload_path_test {

using storage::why_not_inside;
using storage::why_not_writable;

TEST_CASE("names that every FAT volume takes may be written") {
  for (const std::string path : {"day.csv", "maps/yards.geojson", "a", "console.txt", "com10.txt",
                                 "UPPER.TXT", "two words.txt", ".hidden", "lpt", "a-b_c(1).txt"}) {
    INFO(path);
    CHECK(why_not_writable(path).empty());
  }
  CHECK(why_not_writable(std::string(180, 'a')).empty());
}

// Reserved device names and characters as commonly documented for long FAT names (from memory).
TEST_CASE("names that a FAT volume or a common computer refuses are not written") {
  for (const std::string path :
       {"",        "/day.csv",   "day.csv/", "a//b", "..",         "../x", "a/../b",
        "./a",     "a.",         "a ",       " a",   "a./b",       "con",  "CON",
        "Con.txt", "nul.tar.gz", "a/aux",    "COM1", "lpt9.csv",   "com0", "a:b",
        "c:/x",    "a\\b",       "a*",       "a?",   "a\"",        "a<b",  "a>b",
        "a|b",     "a%41",       "a\nb",     "a\tb", "caf\xc3\xa9"}) {
    INFO(path);
    CHECK_FALSE(why_not_writable(path).empty());
  }
  CHECK_FALSE(why_not_writable(std::string(181, 'a')).empty());
  CHECK_FALSE(why_not_writable(std::string("a\0b", 3)).empty());
}

TEST_CASE("paths that stay inside the bundle may be read") {
  for (const std::string path : {"data/day.csv", "data/caf\xc3\xa9.txt", "data/a..b", "data/...",
                                 "data/100%25", "data/50%", "data/a%2", "bagit.txt"}) {
    INFO(path);
    CHECK(why_not_inside(path).empty());
  }
}

TEST_CASE("paths that may lead out of the bundle are refused, however they are escaped") {
  for (const std::string path :
       {"", "/etc/x", "../x", "data/../../x", "data/..", "./data/x", "data//x", "~/x", "c:/x",
        "data\\..\\x", "%2e%2e/x", "data/%2E%2E/x", "data%2f..%2fx", "%252e%252e/x", "%2Fetc/x",
        "data/%5c", "data/%00x", "data/a%0Ab", "%25252525252525252e"}) {
    INFO(path);
    CHECK_FALSE(why_not_inside(path).empty());
  }
}

// RFC 8493 section 2.1.3: only CR, LF and % are escaped in a manifest.
TEST_CASE("only the three escapes of the standard are undone") {
  CHECK(storage::undo_percent("a%25b%0ac%0Dd") == "a%b\nc\rd");
  CHECK(storage::undo_percent("%2525") == "%25");
  CHECK(storage::undo_percent("%41%2f%zz%2") == "%41%2f%zz%2");
}

TEST_CASE("a path from outside is shown short and without control characters") {
  CHECK(storage::shown_path("a\n\x1b[31m") == "a??[31m");
  CHECK(storage::shown_path(std::string(500, 'x')).size() == 83);
}

}  // namespace payload_path_test
