// The text files of a bag, from good and from hostile hands.
#include "storage/bundle/bag_text.h"

#include <doctest/doctest.h>

namespace bag_text_test {

using storage::parse_manifest;
using storage::Problems;

namespace {
// SHA-256 of the empty message and of "abc": FIPS 180-4 examples.
const std::string kEmpty = "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855";
const std::string kAbc = "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad";

std::size_t problems_in(const std::string& text) {
  Problems p;
  (void)parse_manifest("manifest-sha256.txt", text, p);
  return p.count();
}
}  // namespace

TEST_CASE("a manifest written is sorted by path and reads back the same") {
  const std::string text = storage::manifest_text(
      {{"data/b", 0, storage::sha256("abc")}, {"data/a c", 0, storage::sha256("")}});
  CHECK(text == kEmpty + "  data/a c\n" + kAbc + "  data/b\n");
  Problems p;
  const auto entries = parse_manifest("m", text, p);
  CHECK(p.none());
  REQUIRE(entries.size() == 2);
  CHECK(entries[0].path == "data/a c");
  CHECK(storage::hex(entries[1].hash) == kAbc);
}

TEST_CASE("line ends, capitals and white space are taken as RFC 8493 allows") {
  for (const std::string end : {"\n", "\r\n", "\r"}) {
    Problems p;
    const std::string upper = "E3B0C44298FC1C149AFBF4C8996FB92427AE41E4649B934CA495991B7852B855";
    const auto entries = parse_manifest("m", upper + "\tdata/x" + end + kAbc + " data/y", p);
    CHECK(p.none());
    REQUIRE(entries.size() == 2);
    CHECK(storage::hex(entries[0].hash) == kEmpty);
    CHECK(entries[1].path == "data/y");
  }
}

TEST_CASE("every bad line of a manifest is a problem and never an entry") {
  for (const std::string& line :
       {std::string("x"), kEmpty, kEmpty + "  ", kEmpty + "data/x", kEmpty.substr(1) + "  data/x",
        "g" + kEmpty.substr(1) + "  data/x", kEmpty + "  ../x", kEmpty + "  /etc/passwd",
        kEmpty + "  data/%2e%2e/x", kEmpty + "  data/" + std::string(5000, 'x'),
        kEmpty + "  data/x\n" + kAbc + "  data/x", std::string(70, '\0')}) {
    INFO(line.substr(0, 90));
    CHECK(problems_in(line) == 1);
  }
}

TEST_CASE("a huge manifest costs bounded work and bounded lines of complaint") {
  Problems p;
  std::string text;
  for (int i = 0; i < 30'000; ++i) text += "rubbish\n";
  CHECK(parse_manifest("m", text, p).empty());
  CHECK(p.lines().size() == storage::kMostProblems);
  CHECK(p.count() == storage::kMostBagFiles + 1);
  CHECK(problems_in(std::string(8u << 20, 'x')) == 1);  // one line of 8 MiB
}

TEST_CASE("bag-info.txt: tags in order, continued lines joined, rubbish named") {
  Problems p;
  const auto tags =
      storage::parse_info("Source-Organization: Thistle\n  Bank\n\tBees\nEmpty:\r\nA: b: c\n", p);
  CHECK(p.none());
  REQUIRE(tags.size() == 3);
  CHECK(tags[0].second == "Thistle Bank Bees");
  CHECK(tags[1].second.empty());
  CHECK(tags[2].second == "b: c");
  (void)storage::parse_info(" first\nno colon\n: no label\n" + std::string(5000, 'x'), p);
  CHECK(p.count() == 4);
}

TEST_CASE("a declaration is exactly that of BagIt 1.0 in UTF-8") {
  CHECK(storage::why_not_declaration(storage::bag_declaration()).empty());
  const std::string coding = "Tag-File-Character-Encoding: UTF-8\n";
  CHECK(storage::why_not_declaration("BagIt-Version: 1.0\r\n" + coding).empty());
  for (const std::string& text :
       {std::string(), std::string("BagIt-Version: 1.0\n"), "BagIt-Version: 2.0\n" + coding,
        "\xef\xbb\xbf"
        "BagIt-Version: 1.0\n" +
            coding,
        coding + "BagIt-Version: 1.0\n",
        std::string("BagIt-Version: 1.0\nTag-File-Character-Encoding: UTF-16\n")}) {
    INFO(text);
    CHECK_FALSE(storage::why_not_declaration(text).empty());
  }
}

// "279164.198" is the example of RFC 8493 section 2.2.2 (from memory).
TEST_CASE("Payload-Oxum is two plain numbers") {
  CHECK(storage::oxum(279164, 198) == "279164.198");
  CHECK(storage::parse_oxum("279164.198")->second == 198);
  for (const std::string text :
       {"", ".", "1", "1.", ".1", "1.2.3", "-1.2", "1.x", " 1.2", "99999999999999999999.1"})
    CHECK_FALSE(storage::parse_oxum(text));
}

TEST_CASE("a tag that would break bag-info.txt is refused") {
  CHECK(storage::why_not_tag("Contact-Name", "Ada").empty());
  CHECK_FALSE(storage::why_not_tag("", "x").empty());
  CHECK_FALSE(storage::why_not_tag("A:B", "x").empty());
  CHECK_FALSE(storage::why_not_tag("A ", "x").empty());
  CHECK_FALSE(storage::why_not_tag("A", "x\ny").empty());
  CHECK_FALSE(storage::why_not_tag("A", std::string(5000, 'x')).empty());
}

}  // namespace bag_text_test
