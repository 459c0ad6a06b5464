// ui/screens/courses/courses_methods.h -- which treatment may be used now, and why not.
#pragma once
#include "ui/screens/base/screen.h"
#include "ui/screens/state/courses_state.h"

namespace ui {

// Which treatment may be used now, and why not.
void methods_page(Touch& t, Rect room, const Look& look, CoursesView& v, const engine::Yard& yard);
Ask brood_page(Touch& t, Rect room, const Look& look, CoursesView& v, const engine::Yard& yard);

}  // namespace ui
