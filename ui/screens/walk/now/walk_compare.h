// ui/screens/walk/now/walk_compare.h -- the plan under way, and after the walk what was planned
// beside what was done.
#pragma once
#include "ui/screens/state/walk_state.h"

namespace ui {

// The rest of the walk under way.
void walk_plan_now(Touch& t, const Rect& room, const Look& look, const engine::Walk& walk,
                   WalkView& view);

// Opens the comparison; greyed where nothing was planned.
void compare_button(Touch& t, const Rect& rect, const engine::Walk& walk, Comparing& compare);
// What the footer's "First aid" sets is WalkView's.
void walk_compare(Touch& t, const Rect& room, const Look& look, const engine::Walk& walk,
                  Comparing& compare, WalkView& view);

}  // namespace ui
