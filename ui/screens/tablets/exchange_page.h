// ui/screens/tablets/exchange_page.h -- the folder through which tablets meet.
#pragma once
#include "ui/screens/base/screen.h"
#include "ui/screens/state/register_state.h"

namespace ui {

// The folder that is watched.
Ask exchange_page(Touch& t, Rect room, const Look& look, TabletsView& v);

}  // namespace ui
