// ui/touch/icon_shape.h -- a picture as shapes on a grid of 24 x 24 units (assets/icons/README.md).
//
// Pure. What is read is drawn with one pen for all: kIconPen units wide, with round ends. A file
// that leaves the grid, names an unknown shape or fills an area with a dent is refused, with its
// line.
#pragma once
#include <string_view>
#include <vector>

#include "engine/core/status.h"

namespace ui {

inline constexpr float kIconGrid = 24, kIconPen = 2;

struct IconPoint {
  float x = 0, y = 0;
};

struct IconStroke {
  enum class Kind { Line, Loop, Area, Ring, Disc, Arc } kind = Kind::Line;
  std::vector<IconPoint> points{};  // Line, Loop, Area
  IconPoint centre{};               // Ring, Disc, Arc
  float radius = 0;
  float from = 0, to = 0;  // Arc: degrees, 0 to the right, clockwise
};
using IconShape = std::vector<IconStroke>;

[[nodiscard]] engine::Result<IconShape> icon_from(std::string_view text);

}  // namespace ui
