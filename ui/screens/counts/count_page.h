// ui/screens/counts/count_page.h -- counting a colony from its own page.
#pragma once
#include "ui/screens/base/screen.h"
#include "ui/screens/state/yards_state.h"

namespace ui {

// Counting a colony from its own page.
Ask count_page(Touch& t, Rect room, const Look& look, YardsView& v, const engine::Colony& colony);

}  // namespace ui
