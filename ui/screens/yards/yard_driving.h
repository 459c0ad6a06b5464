// ui/screens/yards/yard_driving.h -- how long the drives to a yard take.
#pragma once
#include "ui/screens/base/screen.h"
#include "ui/screens/state/yards_state.h"

namespace ui {

Ask driving_page(Touch& t, Rect room, const Look& look, YardsView& v, const engine::Yard& yard);

}  // namespace ui
