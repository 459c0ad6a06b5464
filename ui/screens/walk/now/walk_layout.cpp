#include "ui/screens/walk/now/walk_layout.h"

#include <algorithm>
#include <cmath>

#include "ui/touch/text.h"

namespace ui {
namespace {

// Five hives of the least width side by side, with gaps: a row of most yards.
constexpr float kYardWide = 5 * kTargetWide + 4 * kTargetGap;

float action_height(const Touch& t, float width) {
  const Rect screen = t.screen();
  return std::ceil(kActionShare * screen.w * screen.h / width) + 1;
}

float rows_of(const Touch& t, float n) { return n * t.least_h() + (n - 1) * t.gap(); }

// One row of cloths stands higher: it has room for the larger digits.
float cloths_high(const Touch& t, std::size_t cloths) {
  return cloths > 3 ? rows_of(t, 2) : t.mm(24);
}

// Lying: the yard at the left, the clocks at the right, the act under both.
NowPlan wide_plan(const Touch& t, Rect room, std::size_t cloths) {
  NowPlan p;
  p.tools = cut_bottom(room, t.least_h(), t.gap());
  p.action = cut_bottom(room, action_height(t, room.w), t.gap());
  p.strip = cut_top(room, t.mm(9), t.mm(1.5F));
  p.yard = cut_left(room, std::max(t.mm(kYardWide), std::floor(room.w * 0.53F)), t.gap());
  p.cloths = cut_bottom(room, cloths_high(t, cloths), t.gap());
  p.now = room;
  return p;
}

// Upright: the yard over the clocks.
NowPlan high_plan(const Touch& t, Rect room, std::size_t cloths) {
  NowPlan p;
  p.tools = cut_bottom(room, rows_of(t, 2), t.gap());
  p.action = cut_bottom(room, action_height(t, room.w), t.gap());
  p.strip = cut_top(room, t.mm(9), t.mm(1.5F));
  p.cloths = cut_bottom(room, cloths > 3 ? rows_of(t, 2) : t.mm(20), t.gap());
  p.now = cut_bottom(room, t.mm(30), t.gap());
  p.yard = room;
  return p;
}

}  // namespace

NowPlan now_plan(const Touch& t, const Rect& room, std::size_t cloths) {
  return room.w > room.h ? wide_plan(t, room, cloths) : high_plan(t, room, cloths);
}

}  // namespace ui
