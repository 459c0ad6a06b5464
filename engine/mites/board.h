// engine/mites/board.h -- what mites fallen on a sticky board say about the colony: not much.
//
// Counts during or just after a round measure the kill, not the load.
#pragma once
#include <cstdint>

namespace engine::mites {

struct BoardCount {
  std::int64_t fallen = 0;
  double days = 0;  // above 0
};

struct BoardEstimate {
  double per_day = 0;
  double colony = 0;  // mites in the colony
  double low = 0, high = 0;
};

// `factor`: mites in the colony for each that falls in a day. The model gives total / natural drop,
// about 42 in summer with brood, 1 / (death rate) without. `uncertainty` (>= 1) widens the limits
// of chance by that factor each way; 2 is this project's assumption.
[[nodiscard]] BoardEstimate estimate(const BoardCount& count, double factor, double uncertainty = 2,
                                     double conf = 0.95);

}  // namespace engine::mites
