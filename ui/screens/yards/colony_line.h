// ui/screens/yards/colony_line.h -- all that happened to a colony.
#pragma once
#include "ui/screens/base/screen.h"
#include "ui/screens/state/yards_state.h"

namespace ui {

// All that happened to it, newest first.
void colony_line(Touch& t, const Rect& rect, const Look& look, YardsView& v,
                 engine::ColonyId colony);

}  // namespace ui
