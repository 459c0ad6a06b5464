// ui/screens/courses/courses_yard.h -- the course of one yard.
#pragma once
#include "ui/screens/base/screen.h"
#include "ui/screens/state/courses_state.h"

namespace ui {

// The brood strip of a yard's course, and what stands around it.
Ask course_page(Touch& t, Rect room, const Look& look, CoursesView& v, const engine::Yard& yard);

}  // namespace ui
