// ui/touch/marks.h -- shapes that carry a state, so that no meaning hangs on colour alone.
#pragma once
#include "ui/touch/contrast.h"
#include "ui/touch/rect.h"

struct ImDrawList;

namespace ui {

enum class Mark {
  None,
  Open,     // empty ring: to do
  Vapor,    // three rising strokes: under vapor
  Cloth,    // hatched square: covered
  Check,    // done, fitted, chosen
  Cross,    // passed over, struck, refused
  Return,   // arrow bent back: come-back list
  Warning,  // triangle with a stroke
  Clock,    // round clock: waiting, due
  Dot,      // filled round: noted
  Left,     // arrows for pages
  Right,
  Less,  // minus and plus of a stepper
  More,
};
inline constexpr int kMarks = 14;

// Draws the mark in the middle of `box`, as large as its shorter side.
void draw_mark(ImDrawList* draw, Mark mark, const Rect& box, Colour ink);

}  // namespace ui
