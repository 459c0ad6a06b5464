// ui/screens/courses/courses_plan.h -- planning courses: which yards, how many rounds, on which
// evenings.
#pragma once
#include "ui/screens/base/screen.h"
#include "ui/screens/state/courses_state.h"

namespace ui {

// Which yards, how many rounds, on which evenings; one tap takes the plan.
Ask plan_page(Touch& t, Rect room, const Look& look, CoursesView& v);
// What the brood of the yards to plan is, where the label minds it and nobody noted it.
Ask brood_asked_page(Touch& t, Rect room, const Look& look, CoursesView& v);

}  // namespace ui
