#include "engine/light/sun.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace engine {
namespace {

using std::chrono::sys_seconds;

constexpr double kRise = -0.833, kCivil = -6;  // degrees
constexpr double kDayS = 86'400;

double rad(double degrees) { return degrees * std::numbers::pi / 180; }
double deg(double radians) { return radians * 180 / std::numbers::pi; }
double turned(double degrees) { return degrees - 360 * std::floor(degrees / 360); }

sys_seconds at(double utc_s) {
  return sys_seconds{std::chrono::seconds{static_cast<std::int64_t>(std::llround(utc_s))}};
}
double seconds_of(sys_seconds t) { return static_cast<double>(t.time_since_epoch().count()); }

// Julian centuries from J2000.0 (JD 2451545.0); 1970-01-01 is JD 2440587.5.
double centuries(double utc_s) { return (utc_s / kDayS + 2440587.5 - 2451545.0) / 36525; }

// Meeus ch. 25 (apparent longitude), 22 (obliquity), 28 (equation of time).
SunPlace place_at(double utc_s) {
  const double t = centuries(utc_s);
  const double mean = turned(280.46646 + t * (36000.76983 + t * 0.0003032));
  const double anomaly = rad(357.52911 + t * (35999.05029 - t * 0.0001537));
  const double e = 0.016708634 - t * (0.000042037 + t * 0.0000001267);
  const double centre = std::sin(anomaly) * (1.914602 - t * (0.004817 + t * 0.000014)) +
                        std::sin(2 * anomaly) * (0.019993 - t * 0.000101) +
                        std::sin(3 * anomaly) * 0.000289;
  const double node = rad(125.04 - 1934.136 * t);
  const double apparent = mean + centre - 0.00569 - 0.00478 * std::sin(node);
  const double tilt =
      rad(23 + (26 + (21.448 - t * (46.815 + t * (0.00059 - t * 0.001813))) / 60) / 60 +
          0.00256 * std::cos(node));
  const double y = std::pow(std::tan(tilt / 2), 2);
  const double l = rad(mean);
  const double equation = y * std::sin(2 * l) - 2 * e * std::sin(anomaly) +
                          4 * e * y * std::sin(anomaly) * std::cos(2 * l) -
                          0.5 * y * y * std::sin(4 * l) - 1.25 * e * e * std::sin(2 * anomaly);
  return {deg(std::asin(std::sin(tilt) * std::sin(rad(apparent)))), 4 * deg(equation),
          turned(apparent)};
}

// The noon nearest to a moment: where sundial time is twelve.
double noon_near(double longitude, double utc_s) {
  double t = utc_s;
  for (int i = 0; i < 6; ++i) {
    const double sundial = t + 60 * place_at(t).equation_min + 240 * longitude;
    const double past_noon = sundial - kDayS / 2;
    t -= past_noon - kDayS * std::round(past_noon / kDayS);
  }
  return t;
}

double noon_within(double longitude, double from, double to) {
  const double middle = (from + to) / 2;
  for (const double near : {middle, middle - kDayS, middle + kDayS})
    if (const double noon = noon_near(longitude, near); noon >= from && noon < to) return noon;
  return noon_near(longitude, middle);
}

// Sine of the sun's height over the horizon.
double height_at(double latitude, double longitude, double utc_s) {
  const SunPlace sun = place_at(utc_s);
  const double sundial = utc_s + 60 * sun.equation_min + 240 * longitude;
  const double hour_angle = 2 * std::numbers::pi * (sundial / kDayS - 0.5);
  return std::sin(rad(latitude)) * std::sin(rad(sun.declination)) +
         std::cos(rad(latitude)) * std::cos(rad(sun.declination)) * std::cos(hour_angle);
}

// The moment at which the sun passes that height, before (side -1) or after (+1) the noon: halved
// down between the noon and the midnight on that side, where it falls all the way.
std::optional<sys_seconds> passes(double latitude, double longitude, double noon, double height,
                                  int side) {
  const double wanted = std::sin(rad(height));
  double high = noon, low = noon + side * kDayS / 2;
  if (height_at(latitude, longitude, high) < wanted || height_at(latitude, longitude, low) > wanted)
    return std::nullopt;
  while (std::abs(high - low) > 0.1) {
    const double middle = (high + low) / 2;
    (height_at(latitude, longitude, middle) >= wanted ? high : low) = middle;
  }
  return at((high + low) / 2);
}

}  // namespace

SunDay sun_on(double latitude, double longitude, sys_seconds midnight, sys_seconds next_midnight) {
  const double noon = noon_within(longitude, seconds_of(midnight), seconds_of(next_midnight));
  const auto when = [&](double height, int side) {
    return passes(latitude, longitude, noon, height, side);
  };
  const bool up = height_at(latitude, longitude, noon) >= std::sin(rad(kRise));
  return {at(noon), when(kCivil, -1), when(kRise, -1), when(kRise, +1), when(kCivil, +1), up};
}

SunPlace sun_at(sys_seconds utc) { return place_at(seconds_of(utc)); }

double sun_height(double latitude, double longitude, sys_seconds utc) {
  return deg(std::asin(std::clamp(height_at(latitude, longitude, seconds_of(utc)), -1.0, 1.0)));
}

}  // namespace engine
