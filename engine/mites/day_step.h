// engine/mites/day_step.h -- one day of the model, for mites of all kinds and for tagged ones.
#pragma once
#include "engine/mites/colony.h"

namespace engine::mites {

// How a cohort of capped cells opens: early, nominal (of what is left), late.
struct Opening {
  double early = 0;
  double nominal = 0;
};
[[nodiscard]] Opening opening_of(const Constants& constants);

// Mothers whose cells opened that day.
struct Opened {
  double worker = 0, drone = 0;
};
// Takes them out of the pool.
Opened open_cells(MitePool& pool, const Opening& opening);

// Mothers that survive and the daughters they bring out, before some fall at emergence.
[[nodiscard]] double emerging_of(const Opened& opened, const Constants& constants);

// Mites on bees meet the hazards, those that arrive that day (from cells or outside) for half of
// it; brood mites grow a day older. Returns those that are no longer on bees.
double expose(MitePool& pool, double arriving, const Hazards& hazards);

// The mites' and the bees' day. The round of that day was done before.
DayFates step(const Colony& colony, ColonyState& state, const Hazards& hazards, int day);

[[nodiscard]] MitePool empty_pool(const Constants& constants);

}  // namespace engine::mites
