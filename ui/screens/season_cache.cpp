#include "ui/screens/season_cache.h"

namespace ui {

void SeasonCache::keep_to(const engine::Farm& farm, engine::Date on) {
  if (entries_ == farm.log.size() && on_ == on) return;
  *this = {};
  entries_ = farm.log.size();
  on_ = on;
}

const engine::YardCount* SeasonCache::yard(const engine::Farm& farm, engine::YardId yard,
                                           engine::Date on) {
  keep_to(farm, on);
  auto at = yards_.find(yard);
  if (at == yards_.end()) at = yards_.emplace(yard, engine::yard_count(farm, yard, on)).first;
  return at->second ? &*at->second : nullptr;
}

const engine::ColonyCount* SeasonCache::colony(const engine::Farm& farm, engine::ColonyId colony,
                                               engine::Date on) {
  keep_to(farm, on);
  auto at = colonies_.find(colony);
  if (at == colonies_.end())
    at = colonies_.emplace(colony, engine::colony_count(farm, colony, on)).first;
  return at->second ? &*at->second : nullptr;
}

}  // namespace ui
