// ui/screens/walk/now/walk_timers.h -- the clocks of vapor and cloths on the walk screen.
#pragma once
#include "ui/screens/base/screen.h"
#include "ui/screens/state/walk_state.h"

namespace ui {

// The vapor: one large clock, or a tile for each when there are several vaporizers. A tapped tile
// chooses its colony.
void draw_dwells(Touch& t, const Rect& rect, const Look& look, const engine::Walk& walk,
                 WalkView& view);

// Each cloth with the colony where it lies; tapping chooses that colony.
void draw_cloths(Touch& t, const Rect& rect, const Look& look, const engine::Walk& walk,
                 WalkView& view);

}  // namespace ui
