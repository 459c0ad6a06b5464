#include "ui/touch/rect.h"

#include <algorithm>

namespace ui {

namespace {

float part(float room, std::size_t n, float gap) {
  const auto count = static_cast<float>(n);
  return std::max(0.0F, (room - gap * (count - 1)) / count);
}

}  // namespace

Rect cut_top(Rect& from, float amount, float gap) {
  const float taken = std::clamp(amount, 0.0F, std::max(0.0F, from.h));
  const Rect strip{from.x, from.y, from.w, taken};
  const float gone = std::min(from.h, taken + gap);
  from.y += gone;
  from.h -= gone;
  return strip;
}

Rect cut_bottom(Rect& from, float amount, float gap) {
  const float taken = std::clamp(amount, 0.0F, std::max(0.0F, from.h));
  const Rect strip{from.x, from.bottom() - taken, from.w, taken};
  from.h -= std::min(from.h, taken + gap);
  return strip;
}

Rect cut_left(Rect& from, float amount, float gap) {
  const float taken = std::clamp(amount, 0.0F, std::max(0.0F, from.w));
  const Rect strip{from.x, from.y, taken, from.h};
  const float gone = std::min(from.w, taken + gap);
  from.x += gone;
  from.w -= gone;
  return strip;
}

Rect cut_right(Rect& from, float amount, float gap) {
  const float taken = std::clamp(amount, 0.0F, std::max(0.0F, from.w));
  const Rect strip{from.right() - taken, from.y, taken, from.h};
  from.w -= std::min(from.w, taken + gap);
  return strip;
}

Rect inset(const Rect& r, float dx, float dy) {
  const float w = std::max(0.0F, r.w - 2 * dx);
  const float h = std::max(0.0F, r.h - 2 * dy);
  return {r.mid_x() - w / 2, r.mid_y() - h / 2, w, h};
}

Rect inset(const Rect& r, float by) { return inset(r, by, by); }

Rect grown(const Rect& r, float by) { return {r.x - by, r.y - by, r.w + 2 * by, r.h + 2 * by}; }

std::vector<Rect> grid(const Rect& r, std::size_t cols, std::size_t lines, float gap) {
  std::vector<Rect> cells;
  if (cols == 0 || lines == 0) return cells;
  const float w = part(r.w, cols, gap);
  const float h = part(r.h, lines, gap);
  for (std::size_t line = 0; line < lines; ++line) {
    for (std::size_t col = 0; col < cols; ++col) {
      cells.push_back({r.x + static_cast<float>(col) * (w + gap),
                       r.y + static_cast<float>(line) * (h + gap), w, h});
    }
  }
  return cells;
}

std::vector<Rect> columns(const Rect& r, std::size_t n, float gap) { return grid(r, n, 1, gap); }

std::vector<Rect> rows(const Rect& r, std::size_t n, float gap) { return grid(r, 1, n, gap); }

std::size_t fit_count(float room, float least, float gap) {
  constexpr float kHalfPixel = 0.5F;  // px: a rounded size must not cost a whole part
  if (least <= 0 || room + kHalfPixel < least) return 0;
  return static_cast<std::size_t>((room + gap + kHalfPixel) / (least + gap));
}

bool holds(const Rect& outer, const Rect& inner) {
  constexpr float kHalfPixel = 0.5F;
  return inner.x >= outer.x - kHalfPixel && inner.y >= outer.y - kHalfPixel &&
         inner.right() <= outer.right() + kHalfPixel &&
         inner.bottom() <= outer.bottom() + kHalfPixel;
}

bool overlap(const Rect& a, const Rect& b) {
  return a.x < b.right() && b.x < a.right() && a.y < b.bottom() && b.y < a.bottom();
}

float gap_between(const Rect& a, const Rect& b) {
  const float across = std::max(a.x - b.right(), b.x - a.right());
  const float down = std::max(a.y - b.bottom(), b.y - a.bottom());
  return std::max(across, down);
}

}  // namespace ui
