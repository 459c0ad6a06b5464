// engine/season/assumed.h -- the colony that the model is asked about, when the keeper cannot know
// how many bees it has and how much the queen lays.
//
// Every number is an assumption by month and latitude, from no published source but the reference
// colony of the model (25 000 bees, 1200 worker and 15 drone eggs a day in summer), and shown as
// such. What the keeper does know goes in: washes, rounds given, queens caged, brood not found.
#pragma once
#include <string>
#include <vector>

#include "engine/farm/farm.h"
#include "engine/mites/colony.h"

namespace engine {

struct AssumedColony {
  mites::Colony colony;                  // day 0 is the day asked for
  std::vector<std::string> assumptions;  // lines for the keeper
};
[[nodiscard]] AssumedColony assumed_colony(const std::vector<BroodNote>& brood,
                                           std::optional<Place> place, Date day0);

// When a season's growth ends for the outlook: the end of October, of April in the south; the next
// one after `on`.
[[nodiscard]] Date season_end(Date on, std::optional<Place> place);

}  // namespace engine
