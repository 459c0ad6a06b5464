// ui/platform/box.h -- a rectangle of whole pixels.
//
// Half open: x0 <= x < x1, y0 <= y < y1. A box without pixels is empty; all empty boxes are alike.
#pragma once
#include <algorithm>
#include <cstdint>

namespace ui {

struct Box {
  int x0 = 0, y0 = 0, x1 = 0, y1 = 0;

  bool operator==(const Box&) const = default;
};

[[nodiscard]] constexpr bool empty(const Box& b) { return b.x1 <= b.x0 || b.y1 <= b.y0; }

[[nodiscard]] constexpr std::int64_t area(const Box& b) {
  return empty(b) ? 0 : std::int64_t{b.x1 - b.x0} * (b.y1 - b.y0);
}

// What both have; Box{} when they share no pixel.
[[nodiscard]] constexpr Box overlap(const Box& a, const Box& b) {
  const Box o{std::max(a.x0, b.x0), std::max(a.y0, b.y0), std::min(a.x1, b.x1),
              std::min(a.y1, b.y1)};
  return empty(o) ? Box{} : o;
}

// The smallest box around both.
[[nodiscard]] constexpr Box around(const Box& a, const Box& b) {
  if (empty(a)) return b;
  if (empty(b)) return a;
  return {std::min(a.x0, b.x0), std::min(a.y0, b.y0), std::max(a.x1, b.x1), std::max(a.y1, b.y1)};
}

}  // namespace ui
