// ui/screens/kit/kit_packing.h -- what to pack.
#pragma once
#include "ui/screens/base/screen.h"
#include "ui/screens/state/kit_state.h"

namespace ui {

// For what is due tonight, or for one yard.
Ask pack_section(Touch& t, Rect room, const Look& look, KitView& v);
void pack_yard_page(Touch& t, Rect room, const Look& look, KitView& v);

}  // namespace ui
