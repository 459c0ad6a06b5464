// ui/screens/kit/kit_screen.h -- the kit, the acid and what to pack.
#pragma once
#include "ui/screens/base/screen.h"
#include "ui/screens/state/kit_state.h"

namespace ui {

Ask kit_screen(Touch& t, const Rect& room, const Look& look, KitView& v);

}  // namespace ui
