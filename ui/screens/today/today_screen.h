// ui/screens/today/today_screen.h -- what is due, and the one button that starts the most urgent of
// it.
#pragma once
#include "ui/screens/base/screen.h"
#include "ui/screens/state/today_state.h"

namespace ui {

Ask today_screen(Touch& t, const Rect& room, const Look& look, TodayView& view);

}  // namespace ui
