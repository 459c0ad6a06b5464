// ui/screens/walk/panels/walk_menu.h -- the ways out of the walk, and what it shows more seldom.
#pragma once
#include "ui/screens/state/walk_state.h"

namespace ui {

Ask walk_menu(Touch& t, const Rect& room, const Look& look, WalkView& view);

}  // namespace ui
