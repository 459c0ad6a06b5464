// ui/screens/setup/setup_screen.h -- what is set on this tablet.
#pragma once
#include "ui/screens/base/screen.h"
#include "ui/screens/state/setup_state.h"

namespace ui {

Ask setup_screen(Touch& t, const Rect& room, const Look& look, SetupView& v);

}  // namespace ui
