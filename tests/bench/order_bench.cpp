// Planning a yard's walk: time, gap to the lower bound, and what is saved over the keeper's own
// order at the same seal; yards in rows, on pallets, scattered and in rings. The baseline of the
// same run is that plain order.
#include <fmt/format.h>

#include <chrono>
#include <cmath>
#include <numbers>

#include "engine/order/order.h"

namespace {

using engine::OrderCase;
using engine::OrderPoint;

double spread(std::size_t i, double step) { return std::fmod(static_cast<double>(i) * step, 1.0); }

OrderPoint place(int layout, std::size_t i, std::size_t n) {
  const auto at = static_cast<double>(i);
  const auto side = static_cast<std::size_t>(std::ceil(std::sqrt(2.0 * static_cast<double>(n))));
  if (layout == 0)
    return {1.6 * static_cast<double>(i % side), 2.5 * static_cast<double>(i / side)};
  if (layout == 1) {
    const std::size_t pallet = i / 4;
    return {5.0 * static_cast<double>(pallet % 5) + 0.6 * static_cast<double>(i % 2),
            6.0 * static_cast<double>(pallet / 5) + 0.6 * static_cast<double>(i / 2 % 2)};
  }
  // The golden ratio and its square's root spread points evenly without a pattern.
  if (layout == 2) return {40 * spread(i + 1, 0.6180339887), 30 * spread(i + 1, 0.7548776662)};
  const double angle = 2 * std::numbers::pi * at / static_cast<double>(n);
  const double radius = 3 + 0.25 * static_cast<double>(n);
  return {radius * std::cos(angle), radius * std::sin(angle)};
}

OrderCase yard(int layout, std::size_t n, int vaporizers, int cloths) {
  OrderCase c;
  c.walk_mps = 1.1;
  c.gate = {-8, -5};
  c.vaporizers = vaporizers;
  c.cloths = cloths;
  c.seal_s = 600;
  c.handling = {20, 10, 6};
  for (std::size_t i = 0; i < n; ++i)
    c.sites.push_back({.id = fmt::format("H{}", i),
                       .at = place(layout, i, n),
                       .dwell_s = 75 + 45 * spread(i + 3, 0.5698402910)});
  return c;
}

}  // namespace

int main() {
  const char* const layouts[] = {"rows", "pallets", "scattered", "ring"};
  fmt::print("layout     n  vap cloths    plan ms   finish s  over bound  saved on plain\n");
  for (int layout = 0; layout < 4; ++layout)
    for (const std::size_t n : {std::size_t{8}, std::size_t{16}, std::size_t{40}, std::size_t{100}})
      for (const auto& [v, k] : {std::pair{1, 3}, {1, 6}, {2, 6}, {3, 12}}) {
        const OrderCase c = yard(layout, n, v, k);
        const auto begin = std::chrono::steady_clock::now();
        const engine::OrderPlan plan = engine::plan_order(c);
        const std::chrono::duration<double, std::milli> took =
            std::chrono::steady_clock::now() - begin;
        const double plain = engine::plain_rotation(c).finish_s;
        fmt::print("{:<9} {:>3} {:>4} {:>6} {:>10.1f} {:>10.1f} {:>10.2f}% {:>14.1f}%{}\n",
                   layouts[layout], n, v, k, took.count(), plan.finish_s,
                   100 * (plan.finish_s / plan.lower_bound_s - 1),
                   100 * (1 - plan.finish_s / plain), plan.proven_optimal ? "  proven" : "");
      }
}
