// ui/screens/walk/panels/walk_panels.h -- what lies over the walk under way.
#pragma once
#include "ui/screens/state/walk_state.h"

namespace ui {

// The panel that UnderWay::panel names; it closes itself.
Ask walk_panel(Touch& t, const Rect& room, const Look& look, const engine::Walk& walk,
               WalkView& view);

}  // namespace ui
