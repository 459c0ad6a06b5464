// ui/screens/walk/now/walk_end.h -- the end of a walk.
#pragma once
#include "ui/screens/state/walk_state.h"

namespace ui {

// Every colony has had its turn, and the walk is still open.
Ask walk_end(Touch& t, const Rect& room, const Look& look, const engine::Walk& walk,
             WalkView& view);
// The summary of a closed walk; WalkView::closed is set.
Ask walk_closed(Touch& t, const Rect& room, const Look& look, const engine::Walk& walk,
                WalkView& view);

}  // namespace ui
