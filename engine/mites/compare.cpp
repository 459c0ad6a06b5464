#include "engine/mites/compare.h"

#include <cassert>

namespace engine::mites {
namespace {

std::optional<double> share_pct(double part, double whole) {
  if (!(whole > 0)) return std::nullopt;
  return 100 * part / whole;
}

Crossing between(const std::vector<double>& wash, double threshold, std::size_t day) {
  const auto d = static_cast<double>(day);
  const double before = wash[day - 1], after = wash[day];
  return {static_cast<int>(day), d - 1 + (threshold - before) / (after - before)};
}

}  // namespace

Comparison compare(const ColonyRun& treated, const ColonyRun& untreated, int day) {
  const auto at = static_cast<std::size_t>(day);
  assert(at < treated.total.size() && at < untreated.total.size());
  Comparison c;
  const std::vector<double>& wash = treated.wash_per_100;
  c.reduction_pct = share_pct(untreated.total[at] - treated.total[at], untreated.total[at]);
  c.wash_reduction_pct =
      share_pct(untreated.wash_per_100[at] - wash[at], untreated.wash_per_100[at]);
  c.change_pct = share_pct(treated.total[at] - treated.total[0], treated.total[0]);
  c.lowest_wash = wash[0];
  for (std::size_t t = 0; t <= at; ++t) {
    c.mean_wash += wash[t];
    if (wash[t] < c.lowest_wash) c.lowest_wash = wash[t], c.lowest_wash_day = static_cast<int>(t);
  }
  c.mean_wash /= static_cast<double>(at + 1);
  return c;
}

std::optional<Crossing> crossing(const std::vector<double>& wash, double threshold) {
  if (!wash.empty() && wash[0] >= threshold) return Crossing{0, 0};
  for (std::size_t t = 1; t < wash.size(); ++t)
    if (wash[t] >= threshold) return between(wash, threshold, t);
  return std::nullopt;
}

std::optional<Crossing> rebound(const ColonyRun& run, double threshold) {
  if (run.rounds.empty()) return std::nullopt;
  const std::vector<double>& wash = run.wash_per_100;
  for (auto t = static_cast<std::size_t>(run.rounds.back()) + 1; t < wash.size(); ++t)
    if (wash[t - 1] < threshold && wash[t] >= threshold) return between(wash, threshold, t);
  return std::nullopt;
}

}  // namespace engine::mites
