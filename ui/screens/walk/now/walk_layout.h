// ui/screens/walk/now/walk_layout.h -- where everything stands on the walk screen. Pure arithmetic.
#pragma once
#include <cstddef>

#include "ui/touch/touch.h"

namespace ui {

// The action button's share of the whole screen.
inline constexpr float kActionShare = 0.25F;

struct NowPlan {
  Rect strip;   // progress, alarm
  Rect say;     // the sentence and the line under it
  Rect action;  // at least kActionShare of the screen
  Rect dwells;  // clocks of the vapor
  Rect cloths;  // one target for each
  Rect next;    // the steps after
  Rect tools;   // the large buttons
};
// For that many vaporizers and cloths; `room` lies inside the screen.
[[nodiscard]] NowPlan now_plan(const Touch& t, const Rect& room, std::size_t vaporizers,
                               std::size_t cloths);

}  // namespace ui
