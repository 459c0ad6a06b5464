#include "ui/screens/walk/now/walk_layout.h"

#include <algorithm>
#include <cmath>

#include "ui/touch/text.h"

namespace ui {
namespace {

float action_height(const Touch& t, float width) {
  const Rect screen = t.screen();
  return std::ceil(kActionShare * screen.w * screen.h / width) + 1;
}

float rows_of(const Touch& t, float n) { return n * t.least_h() + (n - 1) * t.gap(); }

// Lying: sentence and what comes next at the left, clocks at the right, the action under both.
NowPlan wide(const Touch& t, Rect room, std::size_t vaporizers, std::size_t cloths) {
  NowPlan p;
  p.tools = cut_bottom(room, t.least_h(), t.gap());
  p.action = cut_bottom(room, action_height(t, room.w), t.gap());
  p.strip = cut_top(room, t.mm(7.5F), t.mm(2));
  // Three tiles side by side, four for more than two vaporizers.
  const float side = t.mm(vaporizers > 2 ? 92 : cloths > 4 ? 79 : 64);
  Rect clocks = cut_right(room, std::max(side, room.w * 0.37F), t.gap());
  p.cloths = cut_bottom(clocks, rows_of(t, 2), t.gap());
  p.dwells = clocks;
  p.next = cut_bottom(room, std::max(t.least_h(), 3 * line_height(t, Size::Body)), t.mm(1.5F));
  p.say = room;
  return p;
}

// Upright: everything under one another, clocks side by side.
NowPlan high(const Touch& t, Rect room, std::size_t vaporizers, std::size_t cloths) {
  NowPlan p;
  p.tools = cut_bottom(room, rows_of(t, 2), t.gap());
  p.action = cut_bottom(room, action_height(t, room.w), t.gap());
  p.strip = cut_top(room, t.mm(7.5F), t.mm(1));
  Rect info = cut_bottom(room, rows_of(t, 2) + t.mm(3), t.mm(1));
  p.say = room;
  const float tiles = t.mm(cloths > 4 ? 78 : 0);
  p.cloths = cut_right(info, std::max(tiles, std::floor(info.w / 2)), t.gap());
  // One clock is only looked at: it needs no gap.
  const float gap = vaporizers > 1 ? t.gap() : t.mm(1.5F);
  if (vaporizers < 3) p.next = cut_bottom(info, t.least_h(), gap);
  p.dwells = info;
  return p;
}

}  // namespace

NowPlan now_plan(const Touch& t, const Rect& room, std::size_t vaporizers, std::size_t cloths) {
  return room.w > room.h ? wide(t, room, vaporizers, cloths) : high(t, room, vaporizers, cloths);
}

}  // namespace ui
