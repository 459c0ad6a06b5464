#include "ui/touch/marks.h"

#include <imgui.h>

#include <algorithm>
#include <array>
#include <cmath>

#include "ui/touch/paint.h"

namespace ui {

namespace {

// A square pen: the mark is thought in a square from -1 to 1.
struct Pen {
  ImDrawList* draw;
  float x, y, half;
  unsigned ink;

  [[nodiscard]] ImVec2 at(float dx, float dy) const { return {x + dx * half, y + dy * half}; }
  [[nodiscard]] float thick() const { return std::max(2.0F, half * 0.26F); }

  template <std::size_t n>
  void stroke(const std::array<std::array<float, 2>, n>& points) const {
    std::array<ImVec2, n> path;
    for (std::size_t i = 0; i < n; ++i) path[i] = at(points[i][0], points[i][1]);
    draw->AddPolyline(path.data(), static_cast<int>(n), ink, ImDrawFlags_None, thick());
  }
  void ring(float radius) const { draw->AddCircle({x, y}, radius * half, ink, 32, thick()); }
  void triangle(ImVec2 a, ImVec2 b, ImVec2 c) const { draw->AddTriangleFilled(a, b, c, ink); }
  void bar(float left, float top, float right, float bottom) const {
    draw->AddRectFilled(at(left, top), at(right, bottom), ink);
  }
};

void draw_vapor(const Pen& p) {
  for (const float dx : {-0.6F, 0.0F, 0.6F}) {
    p.stroke<5>({{{dx + 0.12F, 0.85F},
                  {dx - 0.16F, 0.4F},
                  {dx + 0.16F, 0.0F},
                  {dx - 0.16F, -0.4F},
                  {dx + 0.12F, -0.85F}}});
  }
}

void draw_cloth(const Pen& p) {
  const Rect square{p.x - p.half * 0.8F, p.y - p.half * 0.8F, p.half * 1.6F, p.half * 1.6F};
  const Colour ink{static_cast<std::uint8_t>(p.ink >> IM_COL32_R_SHIFT),
                   static_cast<std::uint8_t>(p.ink >> IM_COL32_G_SHIFT),
                   static_cast<std::uint8_t>(p.ink >> IM_COL32_B_SHIFT)};
  paint_hatch(p.draw, inset(square, p.thick() * 0.6F), ink, p.half * 0.5F, p.thick() * 0.6F);
  paint_frame(p.draw, square, ink, p.thick() * 0.8F);
}

void draw_return(const Pen& p) {
  constexpr float kPi = 3.14159265F;
  p.draw->PathArcTo(p.at(0, 0.05F), p.half * 0.62F, -0.35F * kPi, 1.05F * kPi, 24);
  p.draw->PathStroke(p.ink, ImDrawFlags_None, p.thick());
  p.triangle(p.at(-0.35F, -0.55F), p.at(0.35F, -0.95F), p.at(0.4F, -0.1F));
}

void draw_warning(const Pen& p) {
  p.draw->AddTriangle(p.at(0, -0.75F), p.at(0.85F, 0.72F), p.at(-0.85F, 0.72F), p.ink,
                      p.thick() * 0.8F);
  p.bar(-0.1F, -0.25F, 0.1F, 0.22F);
  p.bar(-0.1F, 0.36F, 0.1F, 0.54F);
}

void draw_clock(const Pen& p) {
  p.ring(0.8F);
  p.stroke<3>({{{0.0F, -0.45F}, {0.0F, 0.08F}, {0.36F, 0.3F}}});
}

void draw_cross(const Pen& p) {
  p.stroke<2>({{{-0.65F, -0.65F}, {0.65F, 0.65F}}});
  p.stroke<2>({{{-0.65F, 0.65F}, {0.65F, -0.65F}}});
}

}  // namespace

void draw_mark(ImDrawList* draw, Mark mark, const Rect& box, Colour ink) {
  const Pen p{draw, std::round(box.mid_x()), std::round(box.mid_y()), std::min(box.w, box.h) / 2,
              packed(ink)};
  switch (mark) {
    case Mark::None:
      return;
    case Mark::Open:
      return p.ring(0.75F);
    case Mark::Vapor:
      return draw_vapor(p);
    case Mark::Cloth:
      return draw_cloth(p);
    case Mark::Check:
      return p.stroke<3>({{{-0.8F, 0.05F}, {-0.25F, 0.6F}, {0.8F, -0.6F}}});
    case Mark::Cross:
      return draw_cross(p);
    case Mark::Return:
      return draw_return(p);
    case Mark::Warning:
      return draw_warning(p);
    case Mark::Clock:
      return draw_clock(p);
    case Mark::Dot:
      return draw->AddCircleFilled(p.at(0, 0), p.half * 0.6F, p.ink, 32);
    case Mark::Left:
      return p.triangle(p.at(0.55F, -0.8F), p.at(0.55F, 0.8F), p.at(-0.75F, 0));
    case Mark::Right:
      return p.triangle(p.at(-0.55F, 0.8F), p.at(-0.55F, -0.8F), p.at(0.75F, 0));
    case Mark::Less:
      return p.bar(-0.75F, -0.15F, 0.75F, 0.15F);
    case Mark::More:
      p.bar(-0.75F, -0.15F, 0.75F, 0.15F);
      p.bar(-0.15F, -0.75F, 0.15F, 0.75F);
      return;
  }
}

}  // namespace ui
