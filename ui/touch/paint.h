// ui/touch/paint.h -- the few calls on ImGui's draw list that widgets share. Internal to ui/touch.
//
// Rectangles are set on whole pixels: the software renderer then draws them without soft edges, in
// its fast path.
#pragma once
#include "ui/touch/contrast.h"
#include "ui/touch/rect.h"

struct ImDrawList;

namespace ui {

[[nodiscard]] unsigned packed(Colour c);
void paint_rect(ImDrawList* draw, const Rect& rect, Colour c, float corner = 0);
// A frame inside the rectangle, `width` px thick.
void paint_frame(ImDrawList* draw, const Rect& rect, Colour c, float width);
// Slanted stripes clipped to the rectangle, `step` px apart.
void paint_hatch(ImDrawList* draw, const Rect& rect, Colour c, float step, float width);

}  // namespace ui
