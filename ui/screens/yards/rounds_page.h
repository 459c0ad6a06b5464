// ui/screens/yards/rounds_page.h -- the course of a yard; planning and changing it.
#pragma once
#include "ui/screens/base/screen.h"
#include "ui/screens/state/yards_state.h"

namespace ui {

// The course of a yard; planning and changing it.
Ask rounds_page(Touch& t, Rect room, const Look& look, YardsView& v, const engine::Yard& yard);
Ask plan_rounds(Touch& t, Rect room, const Look& look, YardsView& v, const engine::Yard& yard);

}  // namespace ui
