// ui/screens/courses/courses_screen.h -- courses and their rounds, and the pages behind them.
#pragma once
#include "ui/screens/base/screen.h"
#include "ui/screens/state/courses_state.h"

namespace ui {

Ask courses_screen(Touch& t, const Rect& room, const Look& look, CoursesView& v);

}  // namespace ui
