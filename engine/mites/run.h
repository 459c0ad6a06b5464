// engine/mites/run.h -- a colony carried forward from today's count, day by day.
#pragma once
#include <optional>
#include <vector>

#include "engine/mites/treatment.h"

namespace engine::mites {

// Lists run from day 0 on, each value in the morning before that day's round; the last two hold
// what happened during the day and are one shorter.
struct ColonyRun {
  std::vector<double> total, phoretic, in_brood;
  std::vector<double> adults, capped_worker, capped_drone;
  std::vector<double> wash_per_100;   // what a wash would show; not a number without bees
  std::vector<double> invasion_rate;  // chance per day of a mite on bees to enter a cell
  std::vector<double> natural_drop, treatment_kill;

  std::vector<int> rounds;  // the days they were done, within the horizon
  double kill = 0, away = 0;
  // Mites that were under caps at the first round, with the daughters they bring out; and the share
  // of them that ever was on a bee at home at a round, none when there were none.
  double capped_cohort = 0;
  std::optional<double> capped_cohort_exposed;
  // From the first round to the last.
  double worker_cells_opened = 0, drone_cells_opened = 0;
};

// Days 0 to `days` (0 or more). `start` is the colony's, by start_of.
[[nodiscard]] ColonyRun run(const Colony& colony, const ColonyState& start,
                            const Treatment& treatment, int days);
[[nodiscard]] inline ColonyRun run_untreated(const Colony& colony, const ColonyState& start,
                                             int days) {
  return run(colony, start, {}, days);
}

}  // namespace engine::mites
