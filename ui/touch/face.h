// ui/touch/face.h -- what buttons, rows and tiles have in common. Internal to ui/touch.
#pragma once
#include <string_view>

#include "ui/touch/marks.h"
#include "ui/touch/text.h"
#include "ui/touch/touch.h"

namespace ui {

// The surface a target shows now: pressed under the finger, flat when it cannot be tapped.
[[nodiscard]] Surface face_of(const Hit& hit, bool enabled, Surface asked);
// Fills the target; tapped things have a frame, disabled ones have none.
void draw_face(Touch& t, const Rect& rect, Surface surface, bool framed, bool thick = false);

struct Block {
  std::string_view label;
  std::string_view second{};
  Mark mark = Mark::None;
  Size size = Size::Body;
  Size second_size = Size::Small;
};
// Title and, small and quiet, a second line under it: left in `room`, close together.
void draw_lines(Touch& t, const Rect& room, std::string_view title, std::string_view second,
                Size size);
// Mark and label side by side, the second line close under them, all in the middle of `room`.
void draw_block(Touch& t, const Rect& room, const Block& block);

}  // namespace ui
