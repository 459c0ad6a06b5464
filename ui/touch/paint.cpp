#include "ui/touch/paint.h"

#include <imgui.h>

#include <algorithm>
#include <cmath>

namespace ui {

unsigned packed(Colour c) { return IM_COL32(c.r, c.g, c.b, 255); }

void paint_rect(ImDrawList* draw, const Rect& rect, Colour c, float corner) {
  const ImVec2 low(std::round(rect.x), std::round(rect.y));
  const ImVec2 high(std::round(rect.right()), std::round(rect.bottom()));
  const float most = std::min(high.x - low.x, high.y - low.y) / 2;
  if (most > 0) draw->AddRectFilled(low, high, packed(c), std::min(corner, most));
}

void paint_frame(ImDrawList* draw, const Rect& rect, Colour c, float width) {
  const float w = std::max(1.0F, std::round(width));
  paint_rect(draw, {rect.x, rect.y, rect.w, w}, c);
  paint_rect(draw, {rect.x, rect.bottom() - w, rect.w, w}, c);
  paint_rect(draw, {rect.x, rect.y + w, w, rect.h - 2 * w}, c);
  paint_rect(draw, {rect.right() - w, rect.y + w, w, rect.h - 2 * w}, c);
}

void paint_hatch(ImDrawList* draw, const Rect& rect, Colour c, float step, float width) {
  // A stripe runs from (x, bottom) up to (x + h, top); cut both ends at the sides.
  for (float x = rect.x - rect.h + step / 2; x < rect.right(); x += step) {
    const float from = std::max(x, rect.x);
    const float to = std::min(x + rect.h, rect.right());
    if (to <= from) continue;
    draw->AddLine({from, rect.bottom() - (from - x)}, {to, rect.bottom() - (to - x)}, packed(c),
                  width);
  }
}

}  // namespace ui
