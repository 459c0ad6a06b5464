// ui/screens/walk/panels/walk_close.h -- pausing the walk, and ending it early.
#pragma once
#include "ui/screens/state/walk_state.h"

namespace ui {

Ask walk_close(Touch& t, const Rect& room, const Look& look, const engine::Walk& walk,
               WalkView& view);

}  // namespace ui
