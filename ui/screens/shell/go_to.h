// ui/screens/shell/go_to.h -- from the way that a tap named to the page.
#pragma once
#include "ui/screens/state/views.h"

namespace ui {

// The next frame shows the page.
void go_to(const GoTo& way, Views& views);

}  // namespace ui
