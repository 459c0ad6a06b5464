// ui/touch/ink_pen.h -- strokes with round ends, rings and filled shapes on ImGui's draw list.
//
// ImGui joins thick lines at sharp points; round joints look alike at every size and angle.
#pragma once
#include <span>

#include "ui/touch/contrast.h"

struct ImDrawList;
struct ImVec2;

namespace ui {

struct InkPen {
  ImDrawList* draw = nullptr;
  Colour ink;
  float width = 2;  // px

  void stroke(std::span<const ImVec2> points, bool closed = false) const;
  void line(float x0, float y0, float x1, float y1) const;
  // Degrees, 0 to the right, clockwise.
  void arc(float x, float y, float radius, float from, float to) const;
  void ring(float x, float y, float radius) const;
  void disc(float x, float y, float radius) const;
  // Without dents.
  void area(std::span<const ImVec2> points) const;
  // A frame with round corners; filled with `inside` first, where that is given.
  void box(float x, float y, float w, float h, float corner, const Colour* inside = nullptr) const;
};

}  // namespace ui
