// engine/guide/planned.h -- what a walk set out to do, beside what was done.
#pragma once
#include <optional>
#include <string>

#include "engine/walk/walk.h"

namespace engine {

// From the end of the first setting to the last cloth off, so that what came before the first vapor
// is nobody's delay.
struct PlannedAndDone {
  Ms planned{}, done{};
  std::optional<Ms> seal_planned, seal_done;  // the shortest
  int elsewhere = 0;                          // settings moved in the order, as few as explain it
  int left_out = 0;                           // colonies planned and not treated
};
// nullopt: the walk had no plan, or nothing was set.
[[nodiscard]] std::optional<PlannedAndDone> planned_and_done(const Walk& walk);

// "Planned 54 min, took 61. Shortest seal 10:00 planned, 9:41 done. 2 settings out of the order."
[[nodiscard]] std::string words(const PlannedAndDone& p);

}  // namespace engine
