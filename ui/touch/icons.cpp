#include "ui/touch/icons.h"

#include <imgui.h>

#include <algorithm>
#include <array>
#include <cassert>

#include "ui/touch/icons_built_in.h"
#include "ui/touch/ink_pen.h"

namespace ui {

namespace {

static_assert(std::size(kBuiltIn) + 1 == kIcons, "an icon without a name, or a name without one");

std::array<IconShape, kIcons> read_all_icons() {
  std::array<IconShape, kIcons> all;
  for (std::size_t i = 1; i < kIcons; ++i) {
    auto shape = icon_from(kBuiltIn[i - 1].text);
    assert(shape.ok());  // tests/ui/touch/icons_test.cpp
    if (shape.ok()) all[i] = std::move(shape).value();
  }
  return all;
}

// Units of the grid on the glass.
struct Grid {
  float x, y, unit;
  [[nodiscard]] ImVec2 at(IconPoint p) const { return {x + p.x * unit, y + p.y * unit}; }
};

void draw_stroke(const InkPen& pen, const Grid& grid, const IconStroke& s) {
  std::vector<ImVec2> points;
  for (const IconPoint& p : s.points) points.push_back(grid.at(p));
  const ImVec2 centre = grid.at(s.centre);
  const float radius = s.radius * grid.unit;
  switch (s.kind) {
    case IconStroke::Kind::Line:
      return pen.stroke(points);
    case IconStroke::Kind::Loop:
      return pen.stroke(points, true);
    case IconStroke::Kind::Area:
      return pen.area(points);
    case IconStroke::Kind::Ring:
      return pen.ring(centre.x, centre.y, radius);
    case IconStroke::Kind::Disc:
      return pen.disc(centre.x, centre.y, radius);
    case IconStroke::Kind::Arc:
      return pen.arc(centre.x, centre.y, radius, s.from, s.to);
  }
}

}  // namespace

std::string_view name(Icon icon) {
  return icon == Icon::None ? "" : kBuiltIn[static_cast<std::size_t>(icon) - 1].name;
}

std::string_view icon_text(Icon icon) {
  return icon == Icon::None ? "" : kBuiltIn[static_cast<std::size_t>(icon) - 1].text;
}

void draw_icon(ImDrawList* draw, Icon icon, const Rect& box, Colour ink) {
  static const std::array<IconShape, kIcons> kShapes = read_all_icons();
  draw_shape(draw, kShapes[static_cast<std::size_t>(icon)], box, ink);
}

void draw_shape(ImDrawList* draw, const IconShape& shape, const Rect& box, Colour ink) {
  const float unit = std::min(box.w, box.h) / kIconGrid;
  const Grid grid{box.mid_x() - unit * kIconGrid / 2, box.mid_y() - unit * kIconGrid / 2, unit};
  const InkPen pen{draw, ink, kIconPen * unit};
  for (const IconStroke& s : shape) draw_stroke(pen, grid, s);
}

}  // namespace ui
