// ui/screens/walk/panels/walk_shut.h -- finishing with cloths on: the hives that are still shut.
#pragma once
#include "ui/screens/state/walk_state.h"

namespace ui {

[[nodiscard]] bool any_shut(const engine::Walk& walk);

// The whole page is those hives, each opened with one tap (a hold where its seal was short).
// Leaving them shut and closing the walk is a small hold: Today then asks for each.
Ask walk_shut(Touch& t, const Rect& room, const Look& look, const engine::Walk& walk,
              WalkView& view);

// Closes the walk; its summary is what the page shows then.
[[nodiscard]] engine::Body close_walk(const engine::Walk& walk, WalkView& view);

}  // namespace ui
