// ui/screens/counts/counts_screen.h -- mite counts: entering them, and what they decide.
#pragma once
#include "ui/screens/base/screen.h"
#include "ui/screens/state/count_state.h"

namespace ui {

Ask counts_screen(Touch& t, const Rect& room, const Look& look, CountsView& v);

}  // namespace ui
