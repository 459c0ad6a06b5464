// ui/screens/courses/calendar_page.h -- the evenings to come.
#pragma once
#include "ui/screens/base/screen.h"
#include "ui/screens/state/courses_state.h"

namespace ui {

void calendar_page(Touch& t, Rect room, const Look& look, CoursesView& v);

}  // namespace ui
