// ui/screens/yards/yards_screen.h -- the yards as a list, and the pages behind it.
#pragma once
#include "ui/screens/base/screen.h"
#include "ui/screens/state/yards_state.h"

namespace ui {

Ask yards_screen(Touch& t, const Rect& room, const Look& look, YardsView& v);

}  // namespace ui
