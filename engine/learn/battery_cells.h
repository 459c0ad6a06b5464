// engine/learn/battery_cells.h -- one point of the battery model's grid, and a battery's own factor
// there. Internal to learn.
//
// Heating is counted in common charges (u = s / kHeatingPerCharge), medians by their logarithm. A
// Weibull time of shape k and median m outlasts u with exp(-ln 2 (u / m)^k). A charge of age n in
// cold t is felt as u exp(ageing n + cold t) by the battery when new at no cold.
#pragma once
#include <array>
#include <cstddef>

#include "engine/learn/battery.h"

namespace engine::charging {

struct Cell {
  std::size_t power;  // which of a battery's powers
  double k;
  double ageing, cold;
  double log_median;
  double log_weight;  // of shape, ageing and cold
};
[[nodiscard]] std::size_t steps(const BatteryModel& m);
[[nodiscard]] std::size_t powers_of(const BatteryPrior& p);
[[nodiscard]] Cell cell_at(const BatteryModel& m, std::size_t i);
[[nodiscard]] double log_prior(const BatteryModel& m, const Cell& c);
[[nodiscard]] double felt(const Cell& c, double u, double age, double cold);

inline constexpr std::size_t kFactors = 13;  // points around the likeliest factor, to four spreads
using Factors = std::array<double, kFactors>;

// The shares of the factors of one battery (nullptr: never seen) in a cell, and the logarithm of
// the likelihood of all its charges there.
struct Shares {
  Factors of{}, hazard{};
  double log_likelihood = 0;
};
[[nodiscard]] Shares shares_of(const BatteryModel& m, const BatteryModel::OfBattery* b,
                               const Cell& c);

// The cells that matter, and the shares of every battery in each: what is asked of a model asks it
// again and again.
struct Posterior {
  std::vector<Cell> cells;
  std::vector<double> weights;              // as the cells are
  std::vector<std::vector<Shares>> shares;  // as the model's batteries are, each as the cells are
  std::vector<Shares> unseen;               // of a battery that was never seen
};
[[nodiscard]] Posterior posterior_of(const BatteryModel& m);
// The shares of a battery (nullptr: never seen) in all of the posterior's cells.
[[nodiscard]] const std::vector<Shares>& shares_of(const BatteryModel& m,
                                                   const BatteryModel::OfBattery* b);

// nullptr: none, or never seen.
[[nodiscard]] const BatteryModel::OfBattery* find(const BatteryModel& m,
                                                  std::optional<KitId> battery);
[[nodiscard]] double age_of(const BatteryModel::OfBattery* b);
// What the charge a battery is on has given in a cell.
[[nodiscard]] double drawn_of(const BatteryModel::OfBattery* b, const Cell& c);
// Probability, given the cell, that a charge from which `drawn` was felt goes on to `until`.
[[nodiscard]] double goes_on(const Cell& c, const Shares& shares, double drawn, double until);

}  // namespace engine::charging
