// ui/screens/walk/panels/walk_mishap.h -- the mishap panel: at which colony, and what.
#pragma once
#include "ui/screens/state/walk_state.h"

namespace ui {

Ask walk_mishap(Touch& t, const Rect& room, const Look& look, const engine::Walk& walk,
                WalkView& view);

}  // namespace ui
