// ui/screens/walk/now/walk_map.h -- the colonies of a walk where they stand.
#pragma once
#include "ui/screens/state/walk_state.h"

namespace ui {

// Tapping a colony chooses it, or says where a mishap was (WalkPanel::MishapMap).
Ask walk_map(Touch& t, const Rect& room, const Look& look, const engine::Walk& walk,
             WalkView& view);

}  // namespace ui
