#include "engine/season/given.h"

#include <algorithm>

namespace engine {

std::vector<Date> days_treated(const Farm& farm, ColonyId colony) {
  std::vector<Date> days = vapor_days(farm, colony);
  for (const OtherGiven& o : farm.otherwise_treated.of(colony)) days.push_back(o.on);
  std::sort(days.begin(), days.end());
  days.erase(std::unique(days.begin(), days.end()), days.end());
  return days;
}

std::vector<Date> vapor_days(const Farm& farm, ColonyId colony) {
  std::vector<Date> days;
  for (const Vaporized& v : farm.vaporized.of(colony)) days.push_back(v.on);
  std::sort(days.begin(), days.end());
  days.erase(std::unique(days.begin(), days.end()), days.end());
  return days;
}

}  // namespace engine
