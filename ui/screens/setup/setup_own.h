// ui/screens/setup/setup_own.h -- the keeper's own numbers: thresholds, upkeep, home.
#pragma once
#include "ui/screens/base/screen.h"
#include "ui/screens/state/setup_state.h"

namespace ui {

// Thresholds, upkeep, home. `covered` is set while something is typed over the
// screen.
void own_section(Touch& t, const Rect& room, const Look& look, SetupView& v);
Ask typing_own(Touch& t, const Look& look, SetupView& v, bool& covered);
Ask home_page(Touch& t, Rect room, const Look& look, SetupView& v);

}  // namespace ui
