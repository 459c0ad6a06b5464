// ui/screens/walk/walk_screen.h -- the walk: its opening, itself, its end.
#pragma once
#include "ui/screens/state/walk_state.h"

namespace ui {

Ask walk_screen(Touch& t, const Rect& room, const Look& look, WalkView& view);

}  // namespace ui
