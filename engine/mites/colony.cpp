#include "engine/mites/colony.h"

#include <algorithm>
#include <cassert>
#include <limits>
#include <numeric>

#include "engine/mites/ages.h"
#include "engine/mites/day_step.h"

namespace engine::mites {
namespace {

// Brood at the start of a day, from the eggs laid before it.
std::vector<double> brood_from_history(const Colony& colony, const Curve& eggs,
                                       const BroodDays& days, double survival, int day) {
  const Constants& k = colony.constants;
  std::vector<double> cells(index(days.emerge) + 1);
  for (int age = 0; age <= days.emerge; ++age) {
    const int laid = day - 1 - age;
    double alive = caged(colony, laid) ? 0 : eggs.at(laid);
    if (age >= days.cap) alive *= survival;
    if (age == days.emerge - 1) alive *= 1 - k.early_share;
    if (age == days.emerge) alive *= k.late_share;
    cells[index(age)] = alive;
  }
  return cells;
}

void fill_brood(const Colony& colony, ColonyState& state, int day) {
  const Constants& k = colony.constants;
  state.worker_cells =
      brood_from_history(colony, colony.worker_eggs, k.worker, k.worker_survival, day);
  state.drone_cells = brood_from_history(colony, colony.drone_eggs, k.drone, k.drone_survival, day);
}

void scale(MitePool& pool, double factor) {
  pool.on_bees *= factor;
  for (double& mites : pool.in_worker) mites *= factor;
  for (double& mites : pool.in_drone) mites *= factor;
}

double capped(const std::vector<double>& cells, const BroodDays& days) {
  return std::accumulate(cells.begin() + days.cap, cells.end(), 0.0);
}

double in_unit(const Colony& colony, const ColonyState& state, LoadUnit unit) {
  if (unit == LoadUnit::OnBees) return state.mites.on_bees;
  return unit == LoadUnit::All ? all_mites(state.mites) : wash_per_100(colony, state);
}

}  // namespace

bool caged(const Colony& colony, int day) {
  return std::any_of(colony.cages.begin(), colony.cages.end(),
                     [day](const Cage& c) { return c.from <= day && day < c.until; });
}

ColonyState start_of(const Colony& colony, const MiteLoad& load) {
  assert(colony.adults > 0);
  Colony quiet = colony;  // as many bees all the time, and no mites from outside
  quiet.adults_fixed = true;
  quiet.immigration = 0.0;
  ColonyState state;
  state.adults = colony.adults;
  state.mites = empty_pool(colony.constants);
  state.mites.on_bees = 1;
  const int first = -colony.constants.warmup_days;
  fill_brood(colony, state, first);
  for (int day = first; day < 0; ++day) step(quiet, state, hazards_on(quiet, state, day), day);
  fill_brood(colony, state, 0);
  scale(state.mites, load.value / in_unit(colony, state, load.unit));
  return state;
}

Hazards hazards_on(const Colony& colony, const ColonyState& state, int day) {
  const Constants& k = colony.constants;
  const double bees_g = k.bee_mass_g * state.adults;
  const double worker = k.worker_survival * state.worker_cells[index(k.worker.cap) - 1];
  const double drone = k.drone_survival * state.drone_cells[index(k.drone.cap) - 1];
  return {bees_g > 0 ? k.invasion_worker_g * worker / bees_g : 0,
          bees_g > 0 ? k.invasion_drone_g * drone / bees_g : 0, colony.phoretic_death.at(day),
          state.residual_days > 0 ? k.residual_rate : 0};
}

double all_mites(const MitePool& pool) {
  return pool.on_bees + sum(pool.in_worker) + sum(pool.in_drone);
}

double capped_worker_cells(const Colony& colony, const ColonyState& state) {
  return capped(state.worker_cells, colony.constants.worker);
}

double capped_drone_cells(const Colony& colony, const ColonyState& state) {
  return capped(state.drone_cells, colony.constants.drone);
}

double wash_per_100(const Colony& colony, const ColonyState& state) {
  if (state.adults <= 0) return std::numeric_limits<double>::quiet_NaN();
  const Constants& k = colony.constants;
  return 100 * (state.mites.on_bees / state.adults) * k.wash_recovery * k.nest_bias;
}

}  // namespace engine::mites
