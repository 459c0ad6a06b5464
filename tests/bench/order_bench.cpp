// Planning a yard's walk: time, gap to the lower bound, and what is saved over the keeper's own
// order at the same seal; yards in rows, on pallets, scattered and in rings. The baseline of the
// same run is that plain order.
#include <fmt/format.h>

#include <chrono>

#include "tests/bench/yards.h"

int main() {
  fmt::print("layout     n  vap cloths    plan ms   finish s  over bound  saved on plain\n");
  for (int layout = 0; layout < 4; ++layout)
    for (const std::size_t n : {std::size_t{8}, std::size_t{16}, std::size_t{40}, std::size_t{100}})
      for (const auto& [v, k] : {std::pair{1, 3}, {1, 6}, {2, 6}, {3, 12}}) {
        const engine::OrderCase c = bench::yard(layout, n, v, k);
        const auto begin = std::chrono::steady_clock::now();
        const engine::OrderPlan plan = engine::plan_order(c);
        const std::chrono::duration<double, std::milli> took =
            std::chrono::steady_clock::now() - begin;
        const double plain = engine::plain_rotation(c).finish_s;
        fmt::print("{:<9} {:>3} {:>4} {:>6} {:>10.1f} {:>10.1f} {:>10.2f}% {:>14.1f}%{}\n",
                   bench::kLayouts[layout], n, v, k, took.count(), plan.finish_s,
                   100 * (plan.finish_s / plan.lower_bound_s - 1),
                   100 * (1 - plan.finish_s / plain), plan.proven_optimal ? "  proven" : "");
      }
}
