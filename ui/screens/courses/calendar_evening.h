// ui/screens/courses/calendar_evening.h -- one evening of the calendar.
#pragma once
#include "ui/screens/base/screen.h"
#include "ui/screens/state/courses_state.h"

namespace ui {

Ask evening_page(Touch& t, Rect room, const Look& look, CoursesView& v, engine::Date on);
Ask free_evenings(Touch& t, Rect room, const Look& look, CoursesView& v);

}  // namespace ui
