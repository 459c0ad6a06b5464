// ui/screens/shell/all_screens.h -- the bar of screens and the current one.
#pragma once
#include "ui/screens/base/screen.h"
#include "ui/screens/state/views.h"

namespace ui {

// The bar at the side (upright: at the bottom), the current screen in the rest.
Ask all_screens(Touch& t, const Look& look, Views& views);

}  // namespace ui
