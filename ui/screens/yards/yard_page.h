// ui/screens/yards/yard_page.h -- one yard, its colonies as a list or a map.
#pragma once
#include "ui/screens/base/screen.h"
#include "ui/screens/state/yards_state.h"

namespace ui {

// One yard, its colonies as a list or a map.
Ask yard_page(Touch& t, Rect room, const Look& look, YardsView& v, const engine::Yard& yard);

}  // namespace ui
