#include "engine/light/sun.h"

#include <doctest/doctest.h>

#include <cstdlib>
#include <string>

namespace sun_test {

using namespace std::chrono;
using engine::sun_on;

namespace {

sys_seconds utc(int y, unsigned m, unsigned d, int h = 0, int min = 0, int s = 0) {
  return sys_days{year{y} / static_cast<int>(m) / static_cast<int>(d)} + hours{h} + minutes{min} +
         seconds{s};
}

bool within(std::optional<sys_seconds> t, sys_seconds want, seconds most) {
  return t && abs(*t - want) <= most;
}

}  // namespace

// Meeus, Astronomical Algorithms, examples 25.a and 28.a: 1992-10-13, 0h TD (values from memory).
TEST_CASE("the sun's place is that of the book's example") {
  const engine::SunPlace sun = engine::sun_at(utc(1992, 10, 13));
  CHECK(sun.apparent_longitude == doctest::Approx(199.90895).epsilon(0.00001));
  CHECK(sun.declination == doctest::Approx(-7.78507).epsilon(0.0002));
  CHECK(sun.equation_min == doctest::Approx(13.71).epsilon(0.001));
}

// Almanac for Computers 1990 (U.S. Naval Observatory), worked example: Wayne NJ, 40.9 N 74.3 W,
// 25 June 1990, sunrise 5:26 EDT.
TEST_CASE("the almanac's example rises at 5:26") {
  const auto sun = sun_on(40.9, -74.3, utc(1990, 6, 25, 4), utc(1990, 6, 26, 4));
  CHECK(within(sun.sunrise, utc(1990, 6, 25, 9, 26), 60s));
}

// Reda, Andreas, NREL/TP-560-34302: 39.742476 N 105.1786 W, 17 October 2003, UTC-7: sunrise
// 6:12:43. Its sunset 17:20:19 is that of the UTC day, which is the evening of 16 October there.
TEST_CASE("the solar position algorithm's test place") {
  const auto day = sun_on(39.742476, -105.1786, utc(2003, 10, 17, 7), utc(2003, 10, 18, 7));
  CHECK(within(day.sunrise, utc(2003, 10, 17, 13, 12, 43), 10s));
  const auto before = sun_on(39.742476, -105.1786, utc(2003, 10, 16, 7), utc(2003, 10, 17, 7));
  CHECK(within(before.sunset, utc(2003, 10, 17, 0, 20, 19), 10s));
  CHECK(day.civil_dawn < day.sunrise);
  CHECK(day.sunset < day.civil_dusk);
}

TEST_CASE("polar day has no sunset, polar night no sunrise, and both have a noon") {
  const auto summer = sun_on(69.6, 18.9, utc(2026, 6, 20, 22), utc(2026, 6, 21, 22));
  CHECK_FALSE(summer.sunrise);
  CHECK_FALSE(summer.civil_dusk);
  const auto winter = sun_on(69.6, 18.9, utc(2026, 12, 20, 23), utc(2026, 12, 21, 23));
  CHECK_FALSE(winter.sunset);
  CHECK(winter.civil_dawn);
  CHECK(within(winter.noon, utc(2026, 12, 21, 10, 42, 27), 60s));
}

TEST_CASE("noon lies in the local day, also where the calendar is a day ahead of the sun") {
  // Apia, UTC+13 at 171.8 degrees west.
  for (int d = 0; d < 365; d += 7) {
    const sys_seconds midnight = utc(2026, 1, 1) + days{d} - 13h;
    const auto sun = sun_on(-13.8, -171.8, midnight, midnight + 24h);
    CHECK(sun.noon >= midnight);
    CHECK(sun.noon < midnight + 24h);
    CHECK(*sun.sunrise < sun.noon);
    CHECK(*sun.sunset > sun.noon);
  }
}

// At its highest the sun stands 90 degrees less the difference of latitude and declination: the
// geometry of the meridian (Meeus, ch. 13). Rise and civil twilight are defined by heights.
TEST_CASE("the sun's height agrees with noon, sunset and civil dusk") {
  for (const double latitude : {45.0, -36.0, 0.0}) {
    const auto midnight = utc(2026, 8, 14);
    const engine::SunDay day =
        engine::sun_on(latitude, 10, midnight, midnight + std::chrono::hours{24});
    const double declination = engine::sun_at(day.noon).declination;
    CHECK(engine::sun_height(latitude, 10, day.noon) ==
          doctest::Approx(90 - std::abs(latitude - declination)).epsilon(0.0005));
    CHECK(engine::sun_height(latitude, 10, *day.sunset) == doctest::Approx(-0.833).epsilon(0.01));
    CHECK(engine::sun_height(latitude, 10, *day.civil_dusk) == doctest::Approx(-6).epsilon(0.01));
  }
}

}  // namespace sun_test
