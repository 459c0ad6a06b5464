#include "ui/touch/ink_pen.h"

#include <imgui.h>

#include <algorithm>
#include <cmath>
#include <numbers>

#include "ui/touch/paint.h"

namespace ui {

namespace {

constexpr float kDegree = std::numbers::pi_v<float> / 180;

// Sides of a circle that looks round at that radius, in px.
int sides(float radius) { return std::clamp(static_cast<int>(6 + radius), 8, 64); }

}  // namespace

void InkPen::stroke(std::span<const ImVec2> points, bool closed) const {
  const std::size_t n = points.size();
  for (std::size_t i = 0; i + (closed ? 0 : 1) < n; ++i)
    draw->AddLine(points[i], points[(i + 1) % n], packed(ink), width);
  for (const ImVec2& p : points) disc(p.x, p.y, width / 2);
}

void InkPen::line(float x0, float y0, float x1, float y1) const {
  const ImVec2 ends[] = {{x0, y0}, {x1, y1}};
  stroke(ends);
}

void InkPen::arc(float x, float y, float radius, float from, float to) const {
  const float share = (to - from) / 360;
  const int steps = std::max(2, static_cast<int>(static_cast<float>(sides(radius)) * share));
  draw->PathArcTo({x, y}, radius, from * kDegree, to * kDegree, steps);
  draw->PathStroke(packed(ink), ImDrawFlags_None, width);
  for (const float end : {from, to})
    disc(x + radius * std::cos(end * kDegree), y + radius * std::sin(end * kDegree), width / 2);
}

void InkPen::ring(float x, float y, float radius) const {
  draw->AddCircle({x, y}, radius, packed(ink), sides(radius), width);
}

void InkPen::disc(float x, float y, float radius) const {
  draw->AddCircleFilled({x, y}, radius, packed(ink), sides(radius));
}

void InkPen::area(std::span<const ImVec2> points) const {
  draw->AddConvexPolyFilled(points.data(), static_cast<int>(points.size()), packed(ink));
}

void InkPen::box(float x, float y, float w, float h, float corner, const Colour* inside) const {
  if (inside != nullptr) draw->AddRectFilled({x, y}, {x + w, y + h}, packed(*inside), corner);
  draw->AddRect({x, y}, {x + w, y + h}, packed(ink), corner, 0, width);
}

}  // namespace ui
