// ui/touch/rect.h -- rectangles in pixels and the cuts a screen is laid out with.
//
// Pure arithmetic, no drawing. A cut takes a strip off the given rectangle (which shrinks) and
// returns the strip; `gap` is left free between the two. Sizes never become negative.
#pragma once
#include <cstddef>
#include <vector>

namespace ui {

struct Rect {
  float x = 0, y = 0, w = 0, h = 0;

  [[nodiscard]] float right() const { return x + w; }
  [[nodiscard]] float bottom() const { return y + h; }
  [[nodiscard]] float mid_x() const { return x + w / 2; }
  [[nodiscard]] float mid_y() const { return y + h / 2; }
  [[nodiscard]] bool contains(float px, float py) const {
    return px >= x && px < right() && py >= y && py < bottom();
  }
  friend bool operator==(const Rect&, const Rect&) = default;
};

Rect cut_top(Rect& from, float amount, float gap = 0);
Rect cut_bottom(Rect& from, float amount, float gap = 0);
Rect cut_left(Rect& from, float amount, float gap = 0);
Rect cut_right(Rect& from, float amount, float gap = 0);

// `r` with `by` taken off every side (or `dx` left and right, `dy` top and bottom).
[[nodiscard]] Rect inset(const Rect& r, float by);
[[nodiscard]] Rect inset(const Rect& r, float dx, float dy);
[[nodiscard]] Rect grown(const Rect& r, float by);

// Equal parts side by side, one under the other, or row by row.
[[nodiscard]] std::vector<Rect> columns(const Rect& r, std::size_t n, float gap);
[[nodiscard]] std::vector<Rect> rows(const Rect& r, std::size_t n, float gap);
[[nodiscard]] std::vector<Rect> grid(const Rect& r, std::size_t cols, std::size_t lines, float gap);

// How many parts of at least `least` fit side by side in `room` with `gap` between them.
[[nodiscard]] std::size_t fit_count(float room, float least, float gap);

// Does `outer` hold all of `inner`, with half a pixel of grace?
[[nodiscard]] bool holds(const Rect& outer, const Rect& inner);
[[nodiscard]] bool overlap(const Rect& a, const Rect& b);
// The free space between two rectangles: the larger of the two axis gaps, negative on overlap.
[[nodiscard]] float gap_between(const Rect& a, const Rect& b);

}  // namespace ui
