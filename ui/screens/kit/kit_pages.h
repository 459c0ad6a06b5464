// ui/screens/kit/kit_pages.h -- the pages behind the kit. Internal to ui/screens.
#pragma once
#include "ui/screens/answers/answers.h"
#include "ui/screens/base/layout.h"
#include "ui/screens/state/kit_state.h"
#include "ui/screens/words/kit_words.h"

namespace ui {

// kit_item.cpp
Ask kit_item_page(Touch& t, Rect room, const Look& look, KitView& v, const engine::KitItem& item);
// kit_stock.cpp
Ask lot_page(Touch& t, Rect room, const Look& look, KitView& v, const engine::Lot& lot);
Ask dispose_page(Touch& t, Rect room, const Look& look, KitView& v, const engine::Lot& lot);
Ask stock_page(Touch& t, Rect room, const Look& look, KitView& v);
// kit_pack.cpp: for what is due tonight, or for one yard.
void pack_section(Touch& t, Rect room, const Look& look, KitView& v);
void pack_yard_page(Touch& t, Rect room, const Look& look, KitView& v);

// "Vaporizer 1": names are often mere numbers.
[[nodiscard]] std::string item_name(const Look& look, engine::KitId item);
// "19 of about 50 settings since cleaning", "charged", and the like; the row's state beside it.
[[nodiscard]] Row kit_row(const Look& look, const engine::KitItem& item);
[[nodiscard]] Row lot_row(const Look& look, const engine::Lot& lot);

}  // namespace ui
