// engine/guide/last_light.h -- until when a walk can be seen to.
#pragma once
#include <optional>
#include <string>

#include "engine/farm/farm.h"

namespace engine {

// Civil dusk at the yard on the evening of `now` (engine/light/sun.h); as a rule of thumb the last
// light to work by without a lamp. nullopt: the yard's place is not known, the sun does not sink so
// low, or it is between the sun's midnight and noon: light only grows. The clock's midnight ends
// no evening.
[[nodiscard]] std::optional<Stamp> last_light(const Farm& farm, YardId yard, const Stamp& now);

// "ends 20:41, 11 min before dusk"; without a dusk: "ends 20:41". `ends` late by a minute or more
// is called after dusk.
struct Ending {
  std::string words;
  bool late = false;
};
[[nodiscard]] Ending ending(const Stamp& ends, const std::optional<Stamp>& dusk);

}  // namespace engine
