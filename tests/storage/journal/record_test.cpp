#include "storage/journal/record.h"

#include <doctest/doctest.h>

#include "tests/support/journal_fixture.h"

namespace record_test {

using namespace storage;

TEST_CASE("the canonical bytes are one line of JSON with sorted keys and no spaces") {
  Record r = fixture::record(1);
  r.body = R"({"colony":"B3","grams":2})";
  CHECK(canonical(r) ==
        R"({"at_utc_ms":1700000090000,"body":{"colony":"B3","grams":2},"boot_id":"boot-1",)"
        R"("device":"0191a2b3-c4d5-7e6f-8a9b-0c1d2e3f4a5b","kind":"vaporizer_set","seq":1,)"
        R"("since_boot_ms":90000,"zone_offset_min":-90})");
}

TEST_CASE("a record comes back from its canonical bytes, both ways") {
  for (std::int64_t n = 1; n <= 60; ++n) {
    const Record r = fixture::record(n);
    REQUIRE(well_formed(r).ok());
    const auto back = parse_canonical(canonical(r));
    REQUIRE(back.ok());
    CHECK(back.value() == r);
    Record without = r;
    without.body.clear();
    CHECK(take_body(canonical(r), without));
    CHECK(without == r);
  }
}

TEST_CASE("a body must be a JSON object in canonical form") {
  struct Row {
    std::string name;
    std::string body;
    bool good;
  };
  const Row rows[] = {
      {"empty object", "{}", true},
      {"escapes and Unicode", "{\"a\":\"\\u0000\\n\\\\ Bienenstöcke 蜂\"}", true},
      {"a key like one of ours", R"({"a":",\"zone_offset_min\":0}","zone_offset_min":1})", true},
      {"negative and broken numbers", R"({"a":-1.5,"b":0.1,"c":1e+100})", true},
      {"a list", "[]", false},
      {"a space", R"({"a": 1})", false},
      {"keys not sorted", R"({"b":1,"a":1})", false},
      {"a key twice", R"({"a":1,"a":2})", false},
      {"a number not in its shortest form", R"({"a":1.50})", false},
      {"an integer too large", R"({"a":123456789012345678901234567890})", false},
      {"not UTF-8", "{\"a\":\"\xff\"}", false},
      {"text behind it", "{}x", false},
      {"nothing", "", false},
      {"nested too deeply", "{\"a\":" + std::string(70, '[') + std::string(70, ']') + "}", false},
      {"larger than 1 MiB", "{\"a\":\"" + std::string(1 << 20, 'x') + "\"}", false},
  };
  for (const Row& row : rows) {
    INFO(row.name);
    Record r = fixture::record(1);
    r.body = row.body;
    CHECK(well_formed(r).ok() == row.good);
    if (row.good) CHECK(parse_canonical(canonical(r)).ok());
  }
}

TEST_CASE("fields that would break the line are refused by name") {
  struct Row {
    std::string field;
    Record record;
  };
  const auto with = [](auto change) {
    Record r = fixture::record(1);
    change(r);
    return r;
  };
  const Row rows[] = {
      {"device", with([](Record& r) { r.device = "0191A2B3-c4d5-7e6f-8a9b-0c1d2e3f4a5b"; })},
      {"device", with([](Record& r) { r.device.clear(); })},
      {"seq", with([](Record& r) { r.seq = 0; })},
      {"zone_offset_min", with([](Record& r) { r.zone_offset_min = 1441; })},
      {"boot_id", with([](Record& r) { r.boot_id = "a\"b"; })},
      {"boot_id", with([](Record& r) { r.boot_id = std::string(65, 'a'); })},
      {"kind", with([](Record& r) { r.kind = ""; })},
      {"kind", with([](Record& r) { r.kind = "Vaporizer"; })},
  };
  for (const Row& row : rows) {
    INFO(row.field);
    const Status formed = well_formed(row.record);
    CHECK(formed.code() == Code::BadInput);
    CHECK(formed.message().find(row.field) != std::string::npos);
  }
}

TEST_CASE("a line that differs in one byte is not a record, or is another one") {
  const std::string line = canonical(fixture::record(5));
  for (std::size_t i = 0; i < line.size(); ++i) {
    std::string bent = line;
    bent[i] = static_cast<char>(bent[i] ^ 1);
    const auto back = parse_canonical(bent);
    if (back.ok()) CHECK(canonical(back.value()) == bent);
  }
  CHECK_FALSE(parse_canonical(line.substr(0, line.size() - 1)).ok());
  CHECK_FALSE(parse_canonical(line + " ").ok());
}

// The worked example of storage/JOURNAL.md; both sums were made with sha256sum of GNU
// coreutils 9.1.
TEST_CASE("the chain of the worked example has the sums that sha256sum gives") {
  Record r = fixture::record(1);
  r.at_utc_ms = 1752345000000;
  r.zone_offset_min = 120;
  r.boot_id = "b7";
  r.since_boot_ms = 61000;
  r.body = R"({"brood_boxes":1,"colony":"0191a2b3-c4d6-7000-8000-000000000001","dose":1000,)"
           R"("supers_on":false,"vaporizer":"0191a2b3-c4d6-7000-8000-000000000002",)"
           R"("walk":"0191a2b3-c4d6-7000-8000-000000000003"})";
  const Sealed first = seal(r, {});
  CHECK(hex(first.hash) == "96765e2daf5b08047abc09cd825a5390d25d63b257b4b45a68ae285284fff290");
  r.seq = 2;
  r.at_utc_ms = 1752345090000;
  r.since_boot_ms = 151000;
  r.kind = "colony_covered";
  r.body = R"({"cloth":"0191a2b3-c4d6-7000-8000-000000000004",)"
           R"("colony":"0191a2b3-c4d6-7000-8000-000000000001",)"
           R"("walk":"0191a2b3-c4d6-7000-8000-000000000003"})";
  CHECK(hex(seal(r, first.hash).hash) ==
        "423cc993650d82c511a11574797c54cdbed718e813b2fcc8cf744b110543ff45");
}

TEST_CASE("the seal holds until any part of the event is touched") {
  const Sealed s = seal(fixture::record(3), Hash{1, 2, 3});
  CHECK(seal_holds(s));
  Sealed other = s;
  other.record.at_utc_ms += 1;
  CHECK_FALSE(seal_holds(other));
  other = s;
  other.prev[31] ^= 1;
  CHECK_FALSE(seal_holds(other));
}

}  // namespace record_test
