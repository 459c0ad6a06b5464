#include "engine/mites/fit_kill.h"

#include <algorithm>

namespace engine::mites {

KillFit fit_kill(const Colony& colony, const ColonyState& start, Treatment treatment, int pre_day,
                 int post_day, double ratio) {
  const int days = std::max(pre_day, post_day);
  const auto modelled = [&](double kill) {
    treatment.kill = kill;
    const ColonyRun r = run(colony, start, treatment, days);
    return r.wash_per_100[static_cast<std::size_t>(post_day)] /
           r.wash_per_100[static_cast<std::size_t>(pre_day)];
  };
  if (ratio > modelled(0)) return {0, Bounded::Low};
  if (ratio < modelled(1)) return {1, Bounded::High};
  double low = 0, high = 1;
  constexpr int kSteps = 60;
  for (int i = 0; i < kSteps; ++i) {
    const double middle = (low + high) / 2;
    (modelled(middle) > ratio ? low : high) = middle;
  }
  return {(low + high) / 2, std::nullopt};
}

}  // namespace engine::mites
