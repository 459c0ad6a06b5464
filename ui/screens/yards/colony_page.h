// ui/screens/yards/colony_page.h -- what is known about one colony.
#pragma once
#include "ui/screens/base/screen.h"
#include "ui/screens/state/yards_state.h"

namespace ui {

// What is known about one colony.
Ask colony_page(Touch& t, Rect room, const Look& look, YardsView& v, const engine::Colony& colony);

}  // namespace ui
