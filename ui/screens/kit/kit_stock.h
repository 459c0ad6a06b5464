// ui/screens/kit/kit_stock.h -- the acid on the shelf.
#pragma once
#include "ui/screens/base/screen.h"
#include "ui/screens/state/kit_state.h"

namespace ui {

Ask lot_page(Touch& t, Rect room, const Look& look, KitView& v, const engine::Lot& lot);
Ask dispose_page(Touch& t, Rect room, const Look& look, KitView& v, const engine::Lot& lot);
Ask stock_page(Touch& t, Rect room, const Look& look, KitView& v);

}  // namespace ui
