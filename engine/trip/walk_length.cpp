#include "engine/trip/walk_length.h"

#include <algorithm>

namespace engine {

std::optional<OrderCase> case_of_visit(const Farm& farm, const TripYard& visit,
                                       const DwellModel& dwell, const Stamp& now) {
  return case_of_colonies(farm, visit.yard, colonies_of(farm, visit), dwell, now);
}

WalkLength walk_length(const OrderCase& c, Seconds least, double window_min) {
  const double whole = plan_order(c, OrderEffort::Rough).finish_s;
  if (whole <= window_min * 60) return {whole / 60};
  OrderCase less = c;
  less.seal_s = std::min(c.seal_s, static_cast<double>(least.count()));
  less.finish_by_s = std::max(c.now_s, window_min * 60);
  const double shorter = plan_order(less, OrderEffort::Rough).finish_s;
  return shorter < whole ? WalkLength{shorter / 60, true} : WalkLength{whole / 60};
}

}  // namespace engine
