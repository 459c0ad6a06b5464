// engine/trip/walk_length.h -- how long the walk of one yard will take, by the planner.
//
// From the first hand on a hive to the last cloth off and back at the gate; with Rough effort, some
// 2 ms a yard: rather a few percent too long than too short. The walk is planned again, and better,
// when it is opened.
#pragma once
#include <optional>

#include "engine/guide/guide.h"
#include "engine/trip/tonight.h"

namespace engine {

// The yard's colonies (or those of `only`) with all kit that is not retired. nullopt: nothing that
// the planner could order (see case_of).
[[nodiscard]] std::optional<OrderCase> case_of_visit(const Farm& farm, const TripYard& visit,
                                                     const DwellModel& dwell, const Stamp& now);

struct WalkLength {
  double minutes = 0;      // without the gate
  bool shortened = false;  // the whole seal does not fit into the window
};
// With the whole seal where that fits into so many minutes, else with as much of it as does, down
// to `least`; where not even that fits, as long as that takes.
[[nodiscard]] WalkLength walk_length(const OrderCase& c, Seconds least, double window_min);

}  // namespace engine
