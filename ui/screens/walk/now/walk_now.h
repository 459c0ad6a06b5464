// ui/screens/walk/now/walk_now.h -- the walk under way: what to do now.
#pragma once
#include "ui/screens/state/walk_state.h"

namespace ui {

Ask walk_now(Touch& t, const Rect& room, const Look& look, const engine::Walk& walk,
             WalkView& view);

}  // namespace ui
