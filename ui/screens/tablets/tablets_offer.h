// ui/screens/tablets/tablets_offer.h -- what another tablet has set.
#pragma once
#include "engine/farm/setups.h"
#include "ui/screens/base/screen.h"
#include "ui/screens/state/register_state.h"

namespace ui {

// What another tablet has set, and whether it is used here too.
Ask offer_page(Touch& t, Rect room, const Look& look, TabletsView& v, const engine::Offer& offer);
[[nodiscard]] Row offer_row(const Look& look, const engine::Offer& offer);

}  // namespace ui
