// tests/bench/yards.h -- yards to plan a walk in: rows, pallets, scattered and in a ring.
#pragma once
#include <fmt/format.h>

#include <cmath>
#include <numbers>

#include "engine/order/order.h"

namespace bench {

using engine::OrderCase;
using engine::OrderPoint;

inline constexpr const char* kLayouts[] = {"rows", "pallets", "scattered", "ring"};

inline double spread(std::size_t i, double step) {
  return std::fmod(static_cast<double>(i) * step, 1.0);
}

inline OrderPoint place(int layout, std::size_t i, std::size_t n) {
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

// With a dwell of its own for each colony, 75 to 120 s.
inline OrderCase yard(int layout, std::size_t n, int vaporizers, int cloths) {
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

}  // namespace bench
