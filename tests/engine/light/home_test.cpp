#include "engine/light/home.h"

#include <doctest/doctest.h>

#include <string>

#include "engine/core/names.h"

namespace home_test {

using namespace engine;
using std::chrono::hours;
using std::chrono::minutes;
using std::chrono::sys_seconds;

namespace {

sys_seconds utc(int hour, int min = 0) {
  return std::chrono::sys_days{std::chrono::year{2026} / 8 / 14} + hours{hour} + minutes{min};
}

// Made up: up from 6 to 18, twilight half an hour.
SunDay plain() { return {utc(12), utc(5, 30), utc(6), utc(18), utc(18, 30)}; }
SunDay white_night() { return {utc(12), {}, utc(2), utc(22), {}}; }
SunDay polar_day() { return {utc(12), {}, {}, {}, {}, true}; }
SunDay polar_night() { return {utc(12), utc(9), {}, {}, utc(15), false}; }
SunDay deep_polar_night() { return {utc(12), {}, {}, {}, {}, false}; }

std::string shown(const std::optional<HomeSpan>& s) {
  if (!s) return "none";
  const auto minute = [](sys_seconds t) {
    const auto m = std::chrono::duration_cast<minutes>(t - utc(0)).count();
    return std::to_string(m / 60) + "." + std::to_string(m % 60);
  };
  return minute(s->from) + " to " + minute(s->until);
}

const HomePart kEve = HomePart::Evening, kDawn = HomePart::Dawn;
const Temperature kFrost{99}, kLimit{100}, kChill{129}, kMild{130}, kHeat{250};

}  // namespace

TEST_CASE("the bees are home by the light, and longer when it is cold") {
  struct Row {
    std::string name;
    HomePart part;
    SunDay sun;
    std::optional<Temperature> air;
    std::string light, lamp;
    HomeTrust trust;
  };
  using enum HomeTrust;
  const Row rows[] = {
      {"an evening", kEve, plain(), {}, "18.0 to 18.30", "18.0 to 20.30", Fair},
      {"a dawn", kDawn, plain(), {}, "5.30 to 6.0", "3.30 to 6.0", Fair},
      {"9.9 degrees, evening", kEve, plain(), kFrost, "17.0 to 18.30", "17.0 to 20.30", Likely},
      {"9.9 degrees, dawn", kDawn, plain(), kFrost, "5.30 to 7.0", "3.30 to 7.0", Likely},
      {"10 degrees", kEve, plain(), kLimit, "18.0 to 18.30", "18.0 to 20.30", Likely},
      {"12.9 degrees", kEve, plain(), kChill, "18.0 to 18.30", "18.0 to 20.30", Likely},
      {"13 degrees", kEve, plain(), kMild, "18.0 to 18.30", "18.0 to 20.30", Fair},
      {"25 degrees, evening", kEve, plain(), kHeat, "18.0 to 18.30", "18.0 to 20.30", Rough},
      {"25 degrees, dawn", kDawn, plain(), kHeat, "5.30 to 6.0", "3.30 to 6.0", Fair},
      {"white night, evening", kEve, white_night(), {}, "22.0 to 24.0", "22.0 to 24.0", Fair},
      {"white night, dawn", kDawn, white_night(), {}, "0.0 to 2.0", "0.0 to 2.0", Fair},
      {"polar day", kEve, polar_day(), {}, "none", "none", Rough},
      {"polar day, warm", kEve, polar_day(), kLimit, "none", "none", Rough},
      {"polar day, cold", kEve, polar_day(), kFrost, "23.0 to 24.0", "23.0 to 24.0", Rough},
      {"polar day, cold dawn", kDawn, polar_day(), kFrost, "0.0 to 1.0", "0.0 to 1.0", Rough},
      {"polar night", kEve, polar_night(), {}, "12.0 to 15.0", "12.0 to 17.0", Likely},
      {"polar night, dawn", kDawn, polar_night(), {}, "9.0 to 12.0", "7.0 to 12.0", Likely},
      {"no twilight", kEve, deep_polar_night(), {}, "none", "12.0 to 14.0", Likely},
  };
  for (const Row& r : rows) {
    INFO(r.name);
    const BeesHome h = bees_home(r.part, r.sun, r.air);
    CHECK(shown(h.light) == r.light);
    CHECK(shown(h.lamp) == r.lamp);
    CHECK(std::string(name(h.trust)) == name(r.trust));
    CHECK(h.why.ends_with('.'));
  }
}

TEST_CASE("habits decide how long a headlamp serves") {
  const BeesHome h = bees_home(kEve, plain(), {}, {.lamp = minutes{0}});
  CHECK(h.lamp->length() == minutes{30});
}

// Civil twilight of the solar position algorithm's test place (tests/engine/light/sun_test.cpp):
// dusk on 17 October 2003 at 17:46:04 by its own equations; sunset 17:18:51.
TEST_CASE("a place and a day give the evening of that calendar day") {
  const Place place{39'742'476, -105'178'600};
  const Date day = std::chrono::year{2003} / 10 / 17;
  const auto local = std::chrono::sys_days{day} + hours{7};
  for (const auto& zone : {std::optional<minutes>{hours{-7}}, std::optional<minutes>{}}) {
    const BeesHome h = bees_home_at(kEve, place, day, zone);
    REQUIRE(h.light);
    CHECK(abs(h.light->from - (local + hours{17} + minutes{18} + Seconds{51})) <= Seconds{10});
    CHECK(abs(h.light->until - (local + hours{17} + minutes{46} + Seconds{4})) <= Seconds{10});
  }
}

TEST_CASE("what is shown comes from the sun that is there: Tromso by midsummer and midwinter") {
  const Place tromso{69'650'000, 18'960'000};
  CHECK_FALSE(bees_home_at(kEve, tromso, std::chrono::year{2026} / 6 / 21).lamp);
  const BeesHome winter = bees_home_at(kEve, tromso, std::chrono::year{2026} / 12 / 21);
  CHECK(winter.light);
  CHECK(winter.trust == HomeTrust::Likely);
}

}  // namespace home_test
