// engine/rules/regions.h -- thresholds that authorities and laboratories published for a region and
// a time of the year, to stand beside the keeper's own. None of them is chosen for the keeper.
#pragma once
#include <span>
#include <string>
#include <vector>

#include "engine/rules/threshold.h"

namespace engine {

struct RegionThreshold {
  const char* region;
  std::optional<Season> season;  // none: all year
  int tenths;                    // of a mite on 100 bees: from here on it says treat
  const char* says;              // in its own terms
  const char* source;
  bool duty = false;  // an order, not advice
};
[[nodiscard]] std::span<const RegionThreshold> region_thresholds();

// Those for that time of the year, a line each: "Manitoba, 2021: 1.0 in 100 in spring ...".
[[nodiscard]] std::vector<std::string> region_lines(Season season);

}  // namespace engine
