// engine/season/given.h -- what a colony was given against mites, and when.
#pragma once
#include <vector>

#include "engine/farm/farm.h"

namespace engine {

// Days on which the colony got vapor or anything else that was entered, rising, once each.
[[nodiscard]] std::vector<Date> days_treated(const Farm& farm, ColonyId colony);
// Those with vapor alone.
[[nodiscard]] std::vector<Date> vapor_days(const Farm& farm, ColonyId colony);

}  // namespace engine
