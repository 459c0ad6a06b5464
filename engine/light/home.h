// engine/light/home.h -- when the bees of a place are home, in an evening or at a dawn.
//
// Flight follows light and warmth (Clarke and Robert 2018, Apidologie: 78 % of it explained by
// temperature and solar radiation; abstract seen). No published light threshold was found: that
// flight ends near sunset and begins near sunrise is common practice, and so is every answer here.
// What flies at the entrance decides.
#pragma once
#include <chrono>
#include <optional>
#include <string>

#include "engine/core/instant.h"
#include "engine/core/terms.h"
#include "engine/core/units.h"
#include "engine/light/sun.h"

namespace engine {

// Likely: light and warmth say the same. Fair: the light alone says it. Rough: they disagree, or
// the sun gives no evening.
enum class HomeTrust { Likely, Fair, Rough };
constexpr std::array<const char*, 3> enum_names(HomeTrust) { return {"likely", "fair", "rough"}; }

// Below kNoFlight hardly a bee flies, from kFlight on they do: popular pages give 10 to 13 degrees
// (50-55 F), a primary source was not opened.
inline constexpr Temperature kNoFlight{100}, kFlight{130};
// Warm enough for late comers, and for bees that hang at the front: own choice.
inline constexpr Temperature kWarmEvening{250};

// Own choices, no source: how long a keeper works by headlamp beyond civil twilight, and how long
// before sunset and after sunrise a cold day is trusted to keep the bees home.
struct HomeHabits {
  std::chrono::minutes lamp{120};
  std::chrono::minutes cold{60};
};

// UTC, from before until.
struct HomeSpan {
  std::chrono::sys_seconds from{}, until{};
  [[nodiscard]] std::chrono::minutes length() const {
    return std::chrono::duration_cast<std::chrono::minutes>(until - from);
  }
};

struct BeesHome {
  std::optional<HomeSpan> light;  // bees home, and light enough to work (civil twilight or more)
  std::optional<HomeSpan> lamp;   // the same with a headlamp: never shorter
  HomeTrust trust = HomeTrust::Fair;
  std::string why;  // one sentence
};

// An evening: from sunset to civil dusk; a dawn: from civil dawn to sunrise. Where there is no dusk
// or dawn, the light serves until or from the sun's midnight. Polar night: home all day. Polar day:
// only cold keeps them home, in the hour before or after the sun's midnight. `air`: the temperature
// at sunset or sunrise, when somebody knows it.
[[nodiscard]] BeesHome bees_home(HomePart part, const SunDay& sun, std::optional<Temperature> air,
                                 const HomeHabits& habits = {});

// The same at a place on a day of its calendar. `zone`: local time minus UTC; not given: as the
// longitude says.
[[nodiscard]] BeesHome bees_home_at(HomePart part, Place place, Date on,
                                    std::optional<std::chrono::minutes> zone = {},
                                    std::optional<Temperature> air = {},
                                    const HomeHabits& habits = {});

// "likely: light and warmth agree", "fair: by the light alone", ...
[[nodiscard]] const char* words(HomeTrust trust);

}  // namespace engine
