// ui/screens/walk/walk_screen.h -- the walk: its opening, itself, its end.
#pragma once
#include "ui/screens/state/walk_state.h"

namespace ui {

Ask walk_screen(Touch& t, const Rect& room, const Look& look, WalkView& view);

// The walk under way has the whole width; the bar of screens is behind its "Menu". Not so before
// the first vapor, and when nothing is left to do.
[[nodiscard]] bool fills_the_screen(const Look& look, const WalkView& view);

}  // namespace ui
