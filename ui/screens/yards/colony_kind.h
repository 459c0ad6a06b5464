// ui/screens/yards/colony_kind.h -- what a colony is, whether it has a queen, and where its vapor
// would leak. Each tap is written at once.
#pragma once
#include "ui/screens/base/screen.h"
#include "ui/screens/state/yards_state.h"

namespace ui {

Ask kind_page(Touch& t, Rect room, YardsView& v, const engine::Colony& colony);

}  // namespace ui
