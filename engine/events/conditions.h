// engine/events/conditions.h -- the weather at a treatment, as the keeper noted it.
#pragma once
#include <optional>

#include "engine/core/terms.h"
#include "engine/core/units.h"
#include "engine/events/event_fields.h"

namespace engine {

struct Conditions {
  std::optional<Temperature> temperature;
  Flight flight = Flight::None;
  std::optional<int> wind_from_deg;  // 0 = north, 90 = east, as weather reports give it
  std::optional<int> wind_dm_s;      // tenths of metres per second
  bool rain = false;
  friend bool operator==(const Conditions&, const Conditions&) = default;
  DUSKWALK_FIELDS(f("temperature", s.temperature), f("flight", s.flight),
                  f("wind_from_deg", s.wind_from_deg), f("wind_dm_s", s.wind_dm_s),
                  f("rain", s.rain))
};

}  // namespace engine
