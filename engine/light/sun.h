// engine/light/sun.h -- when the sun rises and sets at a place, and when twilight begins and ends.
//
// Meeus, Astronomical Algorithms, 2nd ed. 1998, ch. 25 (sun to 0.01 degrees) and 28 (equation of
// time), as NOAA's solar calculator uses them; each event is found by solving for its own moment.
// Rise and set: the sun's middle 0.833 degrees below a flat horizon (half a disc and the usual
// refraction). Civil twilight: 6 degrees below. Mountains, and air that bends more than usual,
// shift what is seen by minutes. Good to a few seconds for 1900 to 2100.
#pragma once
#include <chrono>
#include <optional>

namespace engine {

// UTC. Nothing: the sun does not come to that height around that noon (polar day or night).
struct SunDay {
  std::chrono::sys_seconds noon{};  // highest
  std::optional<std::chrono::sys_seconds> civil_dawn, sunrise, sunset, civil_dusk;
  bool up_at_noon = true;  // tells polar day from polar night where there is no sunset
};

// The noon that falls into the day from `midnight` to the next one (UTC instants of the local
// calendar; 23 to 25 hours apart), and what lies before and after that noon: a sunset after the
// clock's midnight still belongs to it. Latitude -90 to 90 (north), longitude -180 to 180 (east),
// in degrees.
[[nodiscard]] SunDay sun_on(double latitude, double longitude, std::chrono::sys_seconds midnight,
                            std::chrono::sys_seconds next_midnight);

// Where the sun stands: declination in degrees, and sundial minus clock ("equation of time") in
// minutes.
struct SunPlace {
  double declination = 0;
  double equation_min = 0;
  double apparent_longitude = 0;  // degrees
};
[[nodiscard]] SunPlace sun_at(std::chrono::sys_seconds utc);

// How high the sun's middle stands over a flat horizon, in degrees, without refraction.
[[nodiscard]] double sun_height(double latitude, double longitude, std::chrono::sys_seconds utc);

}  // namespace engine
