// ui/screens/kit/kit_item.h -- one item of the kit.
#pragma once
#include "ui/screens/base/screen.h"
#include "ui/screens/state/kit_state.h"

namespace ui {

Ask kit_item_page(Touch& t, Rect room, const Look& look, KitView& v, const engine::KitItem& item);

}  // namespace ui
