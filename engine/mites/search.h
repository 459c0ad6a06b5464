// engine/mites/search.h -- which rounds on which days, among those the label and the calendar
// allow.
//
// The number of rounds decides, the interval hardly does: what is advised is the fewest rounds that
// come close to the best found.
#pragma once
#include <optional>
#include <vector>

#include "engine/mites/compare.h"

namespace engine::mites {

struct SearchAsk {
  int start = 0;                            // earliest first round
  int n_min = 1, n_max = 1;                 // rounds
  int i_min = 1, i_max = 1;                 // nominal days between them
  std::optional<std::vector<int>> allowed;  // none: every day
  int min_interval = 1;                     // the label's least days between rounds
  std::optional<int> max_rounds;            // the label's most
  int tail_days = 21;                       // between the last round and the day judged
  double tolerance_pp = 2;                  // percentage points that count as equal
  double kill = 0, away = 0;                // of each round
};

struct Candidate {
  int n = 0, interval = 0;
  std::vector<int> days;
  double mean_wash = 0;
  double reduction_pct = 0;  // versus untreated on the day judged
};

struct SearchAnswer {
  std::optional<Candidate> best, advised;  // none: nothing fits
  std::vector<Candidate> ladder;           // the pick of each number of rounds, rising
  int tried = 0;
};

// Days of `n` rounds: each raised to the least interval after the one before, then moved to the
// next allowed day. nullopt: there is no such day.
[[nodiscard]] std::optional<std::vector<int>> place_rounds(const SearchAsk& ask, int n,
                                                           int interval);

// Judged on `day`. Figures are compared after rounding to nine decimals, so that machines agree.
[[nodiscard]] SearchAnswer search(const Colony& colony, const ColonyState& start,
                                  const SearchAsk& ask, int day);

}  // namespace engine::mites
