// ui/screens/courses/courses_verdict.h -- whether a course worked.
#pragma once
#include "ui/screens/base/screen.h"
#include "ui/screens/state/courses_state.h"

namespace ui {

// Did it work, from counts before and after alone.
void verdict_page(Touch& t, Rect room, const Look& look, CoursesView& v, const engine::Yard& yard);

}  // namespace ui
