// How a plan is made easier to live with at no cost in time: air for the bees, no idle vaporizer.
#include <algorithm>
#include <cmath>

#include "engine/order/order.h"
#include "engine/order/order_wind.h"

namespace engine {
namespace {

constexpr double kNoDelay = 0.5;  // s

// The cloth goes straight to the next colony: one way, one tap.
bool goes_straight_on(const std::vector<OrderStep>& steps, std::size_t i) {
  return i + 1 < steps.size() && steps[i + 1].act == OrderDo::Cover &&
         steps[i + 1].cloth == steps[i].cloth;
}

// When the seal that step `i` ends has lasted as long as asked.
double due_at(const OrderCase& c, const std::vector<OrderStep>& steps, std::size_t i) {
  double closed = c.sites[static_cast<std::size_t>(steps[i].site)].since_s;
  for (std::size_t k = 0; k < i; ++k)
    if (steps[k].site == steps[i].site && steps[k].act == OrderDo::Cover) closed = steps[k].end_s;
  return closed + c.seal_s;
}

// The first step that begins then or later, step `i` itself at the latest; never into the middle of
// a cloth's way from one colony to the next.
std::size_t first_after(const std::vector<OrderStep>& steps, std::size_t i, double then) {
  for (std::size_t k = 0; k < i; ++k)
    if (steps[k].start_s >= then && (k == 0 || !goes_straight_on(steps, k - 1))) return k;
  return i;
}

double way_s(const OrderCase& c, const OrderStep& from, const OrderStep& to) {
  const OrderPoint& a = c.sites[static_cast<std::size_t>(from.site)].at;
  const OrderPoint& b = c.sites[static_cast<std::size_t>(to.site)].at;
  return std::hypot(a.x - b.x, a.y - b.y) / c.walk_mps;
}

// The covering of the colony that step `i` sets.
std::size_t covering_of(const std::vector<OrderStep>& steps, std::size_t i) {
  std::size_t k = i + 1;
  while (steps[k].site != steps[i].site || steps[k].act != OrderDo::Cover) ++k;
  return k;
}

// How much longer than its dwell the vaporizer that step `i` sets would stand.
double stands_idle(const OrderCase& c, const OrderPlan& plan, std::size_t i) {
  const double stands = plan.steps[covering_of(plan.steps, i)].start_s - plan.steps[i].end_s;
  return stands - c.sites[static_cast<std::size_t>(plan.steps[i].site)].dwell_s;
}

// The same plan with step `i` after others that come before its covering, as many as cost no time.
OrderPlan put_behind(const OrderCase& c, OrderPlan plan, std::size_t i) {
  for (std::size_t to = covering_of(plan.steps, i) - 1; to > i; --to) {
    std::vector<OrderStep> steps = plan.steps;
    const auto from = steps.begin() + static_cast<std::ptrdiff_t>(i);
    std::rotate(from, from + 1, steps.begin() + static_cast<std::ptrdiff_t>(to) + 1);
    const auto moved = retime(c, steps);
    const bool costs_nothing = moved && moved->finish_s <= plan.finish_s + kNoDelay &&
                               moved->downwind_s <= plan.downwind_s;
    if (costs_nothing) return *moved;
  }
  return plan;
}

// The latest end of the setting `i` that moves no other step.
double latest_end(const OrderCase& c, const std::vector<OrderStep>& steps, std::size_t i) {
  const double dwell = c.sites[static_cast<std::size_t>(steps[i].site)].dwell_s;
  const double for_dwell = steps[covering_of(steps, i)].start_s - dwell - kSpareDwell;
  return std::min(for_dwell, steps[i + 1].start_s - way_s(c, steps[i], steps[i + 1]));
}

}  // namespace

OrderPlan air_sooner(const OrderCase& c, OrderPlan plan) {
  for (std::size_t i = 0; i < plan.steps.size(); ++i) {
    if (plan.steps[i].act != OrderDo::Uncover || goes_straight_on(plan.steps, i)) continue;
    const std::size_t to = first_after(plan.steps, i, due_at(c, plan.steps, i));
    if (to >= i) continue;
    std::vector<OrderStep> steps = plan.steps;
    const auto begin = steps.begin();
    std::rotate(begin + static_cast<std::ptrdiff_t>(to), begin + static_cast<std::ptrdiff_t>(i),
                begin + static_cast<std::ptrdiff_t>(i) + 1);
    const auto moved = retime(c, steps);
    const bool costs_nothing = moved && moved->finish_s <= plan.finish_s + kNoDelay &&
                               moved->downwind_s <= plan.downwind_s;
    if (costs_nothing) plan = *moved;
  }
  return plan;
}

OrderPlan set_behind(const OrderCase& c, OrderPlan plan) {
  for (std::size_t i = plan.steps.size(); i-- > 0;)
    if (plan.steps[i].act == OrderDo::Set && stands_idle(c, plan, i) > kSpareDwell + kWorthHolding)
      plan = put_behind(c, std::move(plan), i);
  return plan;
}

OrderPlan set_late(const OrderCase& c, OrderPlan plan, double worth_s) {
  for (std::size_t i = plan.steps.size(); i-- > 0;) {
    OrderStep& s = plan.steps[i];
    if (s.act != OrderDo::Set) continue;
    const double later = latest_end(c, plan.steps, i) - s.end_s;
    if (later <= 0 || later < worth_s) continue;
    s.start_s += later;
    s.end_s += later;
  }
  if (c.wind_from_deg) plan.downwind_s = order::downwind_s(c, plan);
  return plan;
}

OrderPlan polished(const OrderCase& c, OrderPlan plan) {
  return set_late(c, set_behind(c, air_sooner(c, std::move(plan))));
}

}  // namespace engine
