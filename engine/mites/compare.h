// engine/mites/compare.h -- a treated colony beside the untreated one, to the same day.
//
// "Versus untreated" and "versus today" are always shown side by side: four rounds can leave 37 %
// fewer mites than none, and a wash that looks unchanged.
#pragma once
#include <optional>
#include <vector>

#include "engine/mites/run.h"

namespace engine::mites {

// Percent; none where there is nothing to take a share of.
struct Comparison {
  std::optional<double> reduction_pct;       // mites, against untreated on the day
  std::optional<double> wash_reduction_pct;  // wash, against untreated on the day
  std::optional<double> change_pct;          // mites on the day, against day 0
  double lowest_wash = 0;                    // of days 0 to the day, and its first day
  int lowest_wash_day = 0;
  double mean_wash = 0;  // of days 0 to the day
};
// Both runs reach `day`.
[[nodiscard]] Comparison compare(const ColonyRun& treated, const ColonyRun& untreated, int day);

struct Crossing {
  int day = 0;              // the first morning at or above
  double interpolated = 0;  // on the straight line from the morning before
};
// The first morning with a wash at or above the threshold.
[[nodiscard]] std::optional<Crossing> crossing(const std::vector<double>& wash, double threshold);
// The first time the wash comes up through the threshold after the last round; none without rounds.
[[nodiscard]] std::optional<Crossing> rebound(const ColonyRun& run, double threshold);

}  // namespace engine::mites
