// ui/screens/kit/kit_rows.h -- how the kit is called in lists.
#pragma once
#include <string>

#include "ui/screens/base/screen.h"

namespace ui {

// "Vaporizer 1": names are often mere numbers.
[[nodiscard]] std::string item_name(const Look& look, engine::KitId item);
// "19 of about 50 settings since cleaning", "charged", and the like; the row's state beside it.
[[nodiscard]] Row kit_row(const Look& look, const engine::KitItem& item);
[[nodiscard]] Row lot_row(const Look& look, const engine::Lot& lot);

}  // namespace ui
