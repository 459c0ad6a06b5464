// ui/touch/icons.h -- the pictures of assets/icons/, which are built into the program.
//
// An icon is drawn in one ink with one pen, so that all of them look alike at any size; at 8 mm
// and above every one can be told apart (the least that a page may use beside a word is 6 mm).
#pragma once
#include <span>
#include <string_view>

#include "ui/touch/contrast.h"
#include "ui/touch/icon_shape.h"
#include "ui/touch/rect.h"

struct ImDrawList;

namespace ui {

enum class Icon {
  None,
  Acid,
  Again,
  Aid,
  Battery,
  Bucket,
  Cartridge,
  Check,
  Cloth,
  Counts,
  Courses,
  Drive,
  Flying,
  Go,
  Goggles,
  Kit,
  Menu,
  Mute,
  Pause,
  Plan,
  Problem,
  Register,
  Setup,
  Skip,
  Sound,
  Stop,
  Today,
  Undo,
  Walk,
  Water,
  Yards
};
inline constexpr std::size_t kIcons = 31;  // with None

// The file's name without ".icon"; empty for None.
[[nodiscard]] std::string_view name(Icon icon);
// As built in; empty for None.
[[nodiscard]] std::string_view icon_text(Icon icon);

// In the middle of `box`, as large as its shorter side.
void draw_icon(ImDrawList* draw, Icon icon, const Rect& box, Colour ink);
// The same for a shape that is not built in.
void draw_shape(ImDrawList* draw, const IconShape& shape, const Rect& box, Colour ink);

}  // namespace ui
