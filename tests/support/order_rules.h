// tests/support/order_rules.h -- the rules of a yard walk once more, written from their words and
// sharing nothing with the planner but its types: judges plans, and tries all sequences.
#pragma once
#include <algorithm>
#include <cmath>
#include <limits>
#include <string>
#include <vector>

#include "engine/order/order.h"

namespace order_rules {

using namespace engine;

inline double meters(const OrderPoint& a, const OrderPoint& b) {
  return std::sqrt((a.x - b.x) * (a.x - b.x) + (a.y - b.y) * (a.y - b.y));
}

inline double work_of(const OrderCase& c, OrderDo act) {
  if (act == OrderDo::Set) return c.handling.load_and_set_s;
  return act == OrderDo::Cover ? c.handling.lift_and_cover_s : c.handling.uncover_s;
}

// The first rule the plan breaks, to 0.05 s; empty: none.
inline std::string fault(const OrderCase& c, const OrderPlan& plan) {
  constexpr double kHair = 0.05;
  std::vector<OrderSite> sites = c.sites;
  OrderPoint here = c.operator_at.value_or(c.gate);
  double free_at = c.now_s, shortest = std::numeric_limits<double>::infinity();
  for (const OrderStep& s : plan.steps) {
    OrderSite& site = sites.at(static_cast<std::size_t>(s.site));
    const std::string where = site.id + " at " + std::to_string(s.start_s);
    if (s.start_s < free_at + meters(here, site.at) / c.walk_mps - kHair)
      return "too far: " + where;
    if (std::abs(s.end_s - s.start_s - work_of(c, s.act)) > kHair) return "work: " + where;
    if (static_cast<int>(site.stage) != static_cast<int>(s.act)) return "stage: " + where;
    if (s.act == OrderDo::Cover && s.start_s < site.since_s + site.dwell_s - kHair)
      return "dwell: " + where;
    if (s.act == OrderDo::Uncover && s.start_s < site.since_s + c.seal_s - kHair)
      return "seal: " + where;
    if (s.act == OrderDo::Uncover) shortest = std::min(shortest, s.start_s - site.since_s);
    if (s.act == OrderDo::Uncover && site.cloth > 0 && s.cloth != site.cloth)
      return "another cloth: " + where;
    site.stage = static_cast<OrderStage>(static_cast<int>(site.stage) + 1);
    site.since_s = s.end_s;
    site.cloth = s.act == OrderDo::Cover ? s.cloth : 0;
    int vapor = 0, covered = 0;
    for (const OrderSite& other : sites) {
      vapor += other.stage == OrderStage::Vapor ? 1 : 0;
      covered += other.stage == OrderStage::Covered ? 1 : 0;
      if (&other != &site && site.cloth > 0 && other.cloth == site.cloth)
        return "cloth in two places: " + where;
    }
    if (vapor > c.vaporizers) return "vaporizers: " + where;
    if (covered > c.cloths || s.cloth > c.cloths) return "cloths: " + where;
    here = site.at;
    free_at = s.end_s;
  }
  for (const OrderSite& site : sites)
    if (site.stage != OrderStage::Done) return "not finished: " + site.id;
  if (std::abs(plan.finish_s - free_at - meters(here, c.gate) / c.walk_mps) > kHair)
    return "finish";
  if (std::isfinite(shortest) && std::abs(plan.shortest_seal_s - shortest) > kHair)
    return "shortest seal";
  return {};
}

// The least finish over all sequences of acts. As soon as possible is best for a given sequence:
// no start depends on anything but the ends before it, and never gains from a later one.
inline double best_of_all(const OrderCase& c) {
  struct Now {
    std::vector<OrderSite> sites;
    OrderPoint here;
    double t;
  };
  double best = std::numeric_limits<double>::infinity();
  const auto go_on = [&](const auto& self, const Now& now) -> void {
    if (now.t >= best) return;
    int vapor = 0, covered = 0, left = 0;
    for (const OrderSite& s : now.sites) {
      vapor += s.stage == OrderStage::Vapor ? 1 : 0;
      covered += s.stage == OrderStage::Covered ? 1 : 0;
      left += s.stage != OrderStage::Done ? 1 : 0;
    }
    if (left == 0) {
      best = std::min(best, now.t + meters(now.here, c.gate) / c.walk_mps);
      return;
    }
    for (std::size_t i = 0; i < now.sites.size(); ++i) {
      const OrderSite& s = now.sites[i];
      if (s.stage == OrderStage::Done) continue;
      if (s.stage == OrderStage::ToDo && vapor >= c.vaporizers) continue;
      if (s.stage == OrderStage::Vapor && covered >= c.cloths) continue;
      Now next = now;
      OrderSite& site = next.sites[i];
      double start = now.t + meters(now.here, s.at) / c.walk_mps;
      if (s.stage == OrderStage::Vapor) start = std::max(start, s.since_s + s.dwell_s);
      if (s.stage == OrderStage::Covered) start = std::max(start, s.since_s + c.seal_s);
      next.t = start + work_of(c, static_cast<OrderDo>(static_cast<int>(s.stage)));
      next.here = s.at;
      site.stage = static_cast<OrderStage>(static_cast<int>(s.stage) + 1);
      site.since_s = next.t;
      self(self, next);
    }
  };
  go_on(go_on, {c.sites, c.operator_at.value_or(c.gate), c.now_s});
  return best;
}

}  // namespace order_rules
