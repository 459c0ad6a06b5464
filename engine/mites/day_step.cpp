#include "engine/mites/day_step.h"

#include <algorithm>
#include <cmath>

#include "engine/mites/ages.h"

namespace engine::mites {
namespace {

// The three last ages of a list open: day before nominal, nominal day, day after.
double take_opened(std::vector<double>& by_age, const Opening& opening) {
  const std::size_t last = by_age.size() - 1;
  const double early = opening.early * by_age[last - 2];
  const double nominal = opening.nominal * by_age[last - 1];
  const double late = by_age[last];
  by_age[last - 2] -= early;
  by_age[last - 1] -= nominal;
  by_age[last] = 0;
  return early + nominal + late;
}

void grow_older(std::vector<double>& by_age, double youngest) {
  std::copy_backward(by_age.begin(), by_age.end() - 1, by_age.end());
  by_age.front() = youngest;
}

// Brood ages a day; of the cells that are capped that day a share has died. Returns the emerged.
double step_cells(std::vector<double>& cells, const BroodDays& days, double survival,
                  const Opening& opening, double eggs) {
  const double emerged = take_opened(cells, opening);
  grow_older(cells, eggs);
  cells[index(days.cap)] *= survival;
  return emerged;
}

}  // namespace

Opening opening_of(const Constants& constants) {
  const double left = 1 - constants.early_share;
  return {constants.early_share, left > 0 ? (left - constants.late_share) / left : 0};
}

Opened open_cells(MitePool& pool, const Opening& opening) {
  return {take_opened(pool.in_worker, opening), take_opened(pool.in_drone, opening)};
}

double emerging_of(const Opened& opened, const Constants& k) {
  return opened.worker * (k.mother_survival + k.daughters_worker) +
         opened.drone * (k.mother_survival + k.daughters_drone);
}

double expose(MitePool& pool, double arriving, const Hazards& hazards) {
  const double h = hazards.sum();
  const double stay = std::exp(-h), stay_half = std::exp(-h / 2);
  const double gone = pool.on_bees * (1 - stay) + arriving * (1 - stay_half);
  pool.on_bees = pool.on_bees * stay + arriving * stay_half;
  grow_older(pool.in_worker, h > 0 ? gone * hazards.worker / h : 0);
  grow_older(pool.in_drone, h > 0 ? gone * hazards.drone / h : 0);
  return gone;
}

DayFates step(const Colony& colony, ColonyState& state, const Hazards& hazards, int day) {
  const Constants& k = colony.constants;
  const Opening opening = opening_of(k);
  const Opened opened = open_cells(state.mites, opening);
  const double emerging = emerging_of(opened, k);
  const double arriving = (1 - k.emergence_loss) * emerging + colony.immigration.at(day);
  const double gone = expose(state.mites, arriving, hazards);
  const double h = hazards.sum();
  const bool lays = !caged(colony, day);
  const double emerged = step_cells(state.worker_cells, k.worker, k.worker_survival, opening,
                                    lays ? colony.worker_eggs.at(day) : 0);
  step_cells(state.drone_cells, k.drone, k.drone_survival, opening,
             lays ? colony.drone_eggs.at(day) : 0);
  if (!colony.adults_fixed)
    state.adults = state.adults * std::exp(-1 / colony.lifespan.at(day)) + emerged;
  state.residual_days = std::max(0, state.residual_days - 1);
  return {(h > 0 ? gone * hazards.death / h : 0) + k.emergence_loss * emerging,
          h > 0 ? gone * hazards.residual / h : 0};
}

MitePool empty_pool(const Constants& constants) {
  const auto ages = [](const BroodDays& days) { return index(days.emerge - days.cap + 1); };
  return {0, std::vector<double>(ages(constants.worker)),
          std::vector<double>(ages(constants.drone))};
}

}  // namespace engine::mites
