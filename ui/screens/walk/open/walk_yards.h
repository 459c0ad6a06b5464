// ui/screens/walk/open/walk_yards.h -- the question which yard is walked.
#pragma once
#include "ui/screens/state/walk_state.h"

namespace ui {

Ask walk_yards(Touch& t, const Rect& room, const Look& look, WalkView& view);

}  // namespace ui
