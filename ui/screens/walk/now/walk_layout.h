// ui/screens/walk/now/walk_layout.h -- where everything stands on the walk screen. Pure arithmetic.
#pragma once
#include <cstddef>

#include "ui/touch/touch.h"

namespace ui {

// The action button's share of the whole screen.
inline constexpr float kActionShare = 0.25F;

struct NowPlan {
  Rect strip;   // progress, ending, clock; or the alarm
  Rect yard;    // the picture of the yard
  Rect now;     // what runs now, in the largest digits
  Rect cloths;  // one target for each
  Rect action;  // at least kActionShare of the screen
  Rect tools;   // the buttons for all else
};
// For that many cloths; `room` lies inside the screen.
[[nodiscard]] NowPlan now_plan(const Touch& t, const Rect& room, std::size_t cloths);

}  // namespace ui
