#include <algorithm>

#include "engine/order/order.h"

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
    if (moved && moved->finish_s <= plan.finish_s + kNoDelay) plan = *moved;
  }
  return plan;
}

}  // namespace engine
