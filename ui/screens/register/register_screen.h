// ui/screens/register/register_screen.h -- the log by day, and the pages behind it.
#pragma once
#include "ui/screens/base/screen.h"
#include "ui/screens/state/register_state.h"

namespace ui {

Ask register_screen(Touch& t, const Rect& room, const Look& look, RegisterView& v);

}  // namespace ui
