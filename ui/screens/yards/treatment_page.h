// ui/screens/yards/treatment_page.h -- another treatment than vapor in a walk.
#pragma once
#include "ui/screens/base/screen.h"
#include "ui/screens/state/yards_state.h"

namespace ui {

// Another treatment than vapor in a walk.
Ask treatment_page(Touch& t, Rect room, const Look& look, YardsView& v,
                   const engine::Colony& colony);

}  // namespace ui
