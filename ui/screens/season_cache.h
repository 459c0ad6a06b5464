// ui/screens/season_cache.h -- what the counts decide, computed once an entry and a day.
//
// The engine's answers take longer than a frame may. They are kept here until the log grows or the
// day turns; a reference stays good until the next question after that.
#pragma once
#include <cstddef>
#include <map>
#include <optional>

#include "engine/season/counts.h"

namespace ui {

class SeasonCache {
 public:
  // nullptr: never washed.
  [[nodiscard]] const engine::YardCount* yard(const engine::Farm& farm, engine::YardId yard,
                                              engine::Date on);
  [[nodiscard]] const engine::ColonyCount* colony(const engine::Farm& farm, engine::ColonyId colony,
                                                  engine::Date on);

 private:
  void keep_to(const engine::Farm& farm, engine::Date on);

  std::size_t entries_ = 0;
  engine::Date on_{};
  std::map<engine::YardId, std::optional<engine::YardCount>> yards_;
  std::map<engine::ColonyId, std::optional<engine::ColonyCount>> colonies_;
};

}  // namespace ui
