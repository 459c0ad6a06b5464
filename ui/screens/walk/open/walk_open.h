// ui/screens/walk/open/walk_open.h -- the first page of opening a walk, with START.
#pragma once
#include "ui/screens/state/walk_state.h"

namespace ui {

// Opening::yard is set.
Ask walk_open(Touch& t, const Rect& room, const Look& look, WalkView& view);

}  // namespace ui
