#include "engine/light/home.h"

#include <cmath>

namespace engine {
namespace {

using std::chrono::hours;
using std::chrono::sys_seconds;

bool cold(std::optional<Temperature> air) { return air && *air < kNoFlight; }
bool cool(std::optional<Temperature> air) { return air && *air < kFlight; }
bool hot(std::optional<Temperature> air) { return air && *air >= kWarmEvening; }

// A span of an evening; a dawn is the same with time running backwards.
BeesHome mirrored(HomePart part, sys_seconds home, sys_seconds dark, std::chrono::minutes lamp) {
  BeesHome h;
  if (part == HomePart::Evening) {
    if (home < dark) h.light = HomeSpan{home, dark};
    h.lamp = HomeSpan{home, dark + lamp};
  } else {
    if (dark < home) h.light = HomeSpan{dark, home};
    h.lamp = HomeSpan{dark - lamp, home};
  }
  return h;
}

BeesHome told(BeesHome h, HomeTrust trust, std::string why) {
  h.trust = trust;
  h.why = std::move(why);
  return h;
}

// The sun stays up: the hour next to its midnight, when it is cold.
BeesHome polar_day(HomePart part, sys_seconds midnight, std::optional<Temperature> air,
                   std::chrono::minutes span) {
  if (!cold(air))
    return told({}, HomeTrust::Rough,
                "The sun stays up all day: only the cold keeps the bees home. Look at the "
                "entrances.");
  const bool evening = part == HomePart::Evening;
  return told(mirrored(part, evening ? midnight - span : midnight + span, midnight, {}),
              HomeTrust::Rough, "The sun stays up all day, but it is too cold to fly.");
}

BeesHome told_by_air(BeesHome h, HomePart part, std::optional<Temperature> air) {
  const bool evening = part == HomePart::Evening;
  const std::string ends = evening ? "Flight ends near sunset" : "Flight begins near sunrise";
  if (cold(air))
    return told(std::move(h), HomeTrust::Likely,
                evening ? "Below 10 °C hardly a bee flies, also before sunset."
                        : "Below 10 °C hardly a bee flies, also after sunrise.");
  if (cool(air)) return told(std::move(h), HomeTrust::Likely, ends + ", and it is cool.");
  if (hot(air) && evening)
    return told(std::move(h), HomeTrust::Rough,
                "A warm evening: late comers, and bees may hang at the front.");
  if (!air) return told(std::move(h), HomeTrust::Fair, ends + "; how warm it is was not said.");
  return told(std::move(h), HomeTrust::Fair, ends + "; warm enough to fly until then.");
}

}  // namespace

BeesHome bees_home(HomePart part, const SunDay& sun, std::optional<Temperature> air,
                   const HomeHabits& habits) {
  const bool evening = part == HomePart::Evening;
  const sys_seconds midnight = evening ? sun.noon + hours{12} : sun.noon - hours{12};
  const auto edge = evening ? sun.sunset : sun.sunrise;
  const auto twilight = evening ? sun.civil_dusk : sun.civil_dawn;
  if (!edge && !sun.up_at_noon) {
    const sys_seconds dark = twilight.value_or(sun.noon);
    return told(mirrored(part, sun.noon, dark, habits.lamp), HomeTrust::Likely,
                "The sun does not rise: the bees stay home.");
  }
  if (!edge) return polar_day(part, midnight, air, habits.cold);
  const auto shift = cold(air) ? habits.cold : std::chrono::minutes{0};
  const sys_seconds home = evening ? *edge - shift : *edge + shift;
  const BeesHome h =
      twilight ? mirrored(part, home, *twilight, habits.lamp) : mirrored(part, home, midnight, {});
  BeesHome out = told_by_air(h, part, air);
  if (!twilight) out.why += " It does not get dark.";
  return out;
}

BeesHome bees_home_at(HomePart part, Place place, Date on, std::optional<std::chrono::minutes> zone,
                      std::optional<Temperature> air, const HomeHabits& habits) {
  const double lat = place.lat_udeg / 1e6, lon = place.lon_udeg / 1e6;
  const auto by_sun = std::chrono::minutes{std::lround(lon * 4)};
  const sys_seconds midnight = sys_seconds{days(on)} - zone.value_or(by_sun);
  return bees_home(part, sun_on(lat, lon, midnight, midnight + hours{24}), air, habits);
}

const char* words(HomeTrust trust) {
  switch (trust) {
    case HomeTrust::Likely:
      return "likely: light and warmth agree";
    case HomeTrust::Fair:
      return "fair: by the light alone";
    case HomeTrust::Rough:
      return "rough: look at the entrances first";
  }
  return "";
}

}  // namespace engine
