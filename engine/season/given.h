// engine/season/given.h -- what a colony was given against mites, and when.
#pragma once
#include <vector>

#include "engine/farm/farm.h"

namespace engine {

// Days on which the colony got vapor in a walk or anything else that was entered, rising, once
// each.
[[nodiscard]] std::vector<Date> days_treated(const Farm& farm, ColonyId colony);

// Days with vapor from a walk, and the vaporizer that gave the last of that day.
struct VaporDay {
  Date on{};
  KitId vaporizer;
  Mass dihydrate;  // of the day; zero when the product's strength is not known
  int boxes = 1;
  Flight flight = Flight::None;
};
[[nodiscard]] std::vector<VaporDay> vapor_days(const Farm& farm, ColonyId colony);

}  // namespace engine
