#include <doctest/doctest.h>

#include "engine/core/id.h"
#include "engine/core/instant.h"
#include "engine/core/units.h"

namespace core_test {

using namespace engine;

TEST_CASE("a version 7 UUID is laid out as RFC 9562 appendix A.6 shows") {
  // Worked example there: 2022-02-22 14:22:22.00 GMT-05:00, rand_a 0xCC3, rand_b
  // 0x18C4DC0C0C07398F.
  const UuidBytes b = uuid_v7(0x017F22E279B0, 0xCC3, 0x18C4DC0C0C07398F);
  CHECK(uuid_text(b) == "017f22e2-79b0-7cc3-98c4-dc0c0c07398f");
  CHECK(uuid_from_text("017F22E2-79B0-7CC3-98C4-DC0C0C07398F") == b);
}

TEST_CASE("text that is no UUID names nothing") {
  for (const std::string bad :
       {"", "017f22e2-79b0-7cc3-98c4-dc0c0c07398", "zz7f22e2-79b0-7cc3-98c4-dc0c0c07398f",
        "017f22e279b07cc398c4dc0c0c07398f00000", "017f22e2_79b0_7cc3_98c4_dc0c0c07398f"}) {
    INFO(bad);
    CHECK_FALSE(uuid_from_text(bad));
  }
}

TEST_CASE("RFC 3339 date-times are read and written") {
  // The examples of RFC 3339 section 5.8, to whole seconds.
  struct Row {
    std::string text, again;
  };
  const Row rows[] = {
      {"1985-04-12T23:20:50.52Z", "1985-04-12T23:20:50+00:00"},
      {"1996-12-19T16:39:57-08:00", "1996-12-19T16:39:57-08:00"},
      {"1937-01-01T12:00:27.87+00:20", "1937-01-01T12:00:27+00:20"},
  };
  for (const Row& r : rows) {
    INFO(r.text);
    const auto s = stamp_from_rfc3339(r.text);
    REQUIRE(s);
    CHECK(rfc3339(*s) == r.again);
  }
  // The same section: these two are the same moment.
  CHECK(stamp_from_rfc3339("1996-12-19T16:39:57-08:00")->at ==
        stamp_from_rfc3339("1996-12-20T00:39:57Z")->at);
}

TEST_CASE("days that the calendar does not have are refused") {
  struct Row {
    std::string text;
    bool good;
  };
  const Row rows[] = {{"2024-02-29", true}, {"2023-02-29", false}, {"1900-02-29", false},
                      {"2000-02-29", true}, {"2026-13-01", false}, {"2026-04-31", false},
                      {"2026-4-3", false},  {"2026-04-03 ", false}};
  for (const Row& r : rows) {
    INFO(r.text);
    CHECK(date_from_iso(r.text).has_value() == r.good);
  }
}

TEST_CASE("within one boot only the boot clock measures; after a reboot the wall clock does") {
  const Stamp start{Utc{Ms{1'000'000}}, {}, "a", Ms{500}};
  struct Row {
    std::string name;
    Stamp to;
    long ms;
    bool sure;
  };
  const Row rows[] = {
      {"same boot", {Utc{Ms{1'090'000}}, {}, "a", Ms{90'500}}, 90'000, true},
      {"wall clock set back a day", {Utc{Ms{-85'000'000}}, {}, "a", Ms{90'500}}, 90'000, true},
      {"wall clock set ahead a day", {Utc{Ms{87'400'000}}, {}, "a", Ms{90'500}}, 90'000, true},
      {"another boot", {Utc{Ms{1'120'000}}, {}, "b", Ms{10}}, 120'000, true},
      {"another boot, clock lost", {Utc{Ms{0}}, {}, "b", Ms{10}}, 10, false},
  };
  for (const Row& r : rows) {
    INFO(r.name);
    CHECK(elapsed(start, r.to).length == Ms{r.ms});
    CHECK(elapsed(start, r.to).sure == r.sure);
  }
}

// What a broken clock may say: beyond 2262 nanoseconds wrap, beyond 9999 dates have five digits.
TEST_CASE("no time wraps, whatever a clock says") {
  constexpr std::int64_t kLeast = std::numeric_limits<std::int64_t>::min();
  constexpr std::int64_t kMost = std::numeric_limits<std::int64_t>::max();
  struct Row {
    std::int64_t utc_ms;
    std::string want;
    bool right;
  };
  const Row rows[] = {{kLeast, "0000-01-01", false},
                      {-62'167'219'200'001, "0000-01-01", false},
                      {-2'208'988'800'001, "1899-12-31", false},
                      {-2'208'988'800'000, "1900-01-01", true},
                      {-1, "1969-12-31", true},
                      {7'258'118'399'999, "2199-12-31", true},
                      {7'258'118'400'000, "2200-01-01", false},
                      {9'223'372'036'855, "2262-04-11", false},
                      {253'402'300'799'999, "9999-12-31", false},
                      {253'402'300'800'000, "9999-12-31", false},
                      {kMost, "9999-12-31", false}};
  for (const Row& r : rows) {
    INFO(r.utc_ms);
    const Stamp s{Utc{Ms{r.utc_ms}}, {}, {}, {}};
    CHECK(iso_date(local_date(s)) == r.want);
    CHECK(credible(s) == r.right);
    for (const int zone : {-1439, 0, 1439, std::numeric_limits<int>::max()}) {
      const Stamp there{s.at, std::chrono::minutes{zone}, {}, {}};
      CHECK(rfc3339(there).size() == 25);
      CHECK(stamp_from_rfc3339(rfc3339(there)).has_value());
    }
    for (const Row& other : rows) {
      const Stamp to{Utc{Ms{other.utc_ms}}, {}, {}, {}};
      CHECK(elapsed(s, to).length >= Ms{0});
      CHECK((elapsed(s, to).sure ? credible(s) && credible(to) : true));
    }
  }
}

TEST_CASE("masses and temperatures are shown in the keeper's units") {
  CHECK(show(Mass{2000}, MassUnit::Gram) == "2 g");
  CHECK(show(Mass{2300}, MassUnit::Gram) == "2.3 g");
  CHECK(show(Mass{28'350}, MassUnit::Ounce) == "1.000 oz");  // 1 oz = 28.349523125 g by definition
  CHECK(show(Temperature{125}, TemperatureUnit::Celsius) == "12.5 °C");
  // Freezing and boiling point of water, and where the two scales meet.
  CHECK(show(Temperature{0}, TemperatureUnit::Fahrenheit) == "32 °F");
  CHECK(show(Temperature{1000}, TemperatureUnit::Fahrenheit) == "212 °F");
  CHECK(show(Temperature{-400}, TemperatureUnit::Fahrenheit) == "-40 °F");
}

TEST_CASE("lengths are shown as minutes and seconds") {
  CHECK(minutes_seconds(Ms{0}) == "0:00");
  CHECK(minutes_seconds(Ms{65'999}) == "1:05");
  CHECK(minutes_seconds(Ms{-12'000}) == "-0:12");
  CHECK(minutes_seconds(Ms{3'723'000}) == "1:02:03");
}

}  // namespace core_test
