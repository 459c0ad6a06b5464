// ui/screens/yards/yard_card.h -- what who comes to a yard must know: its address, the way in, the
// landowner, and the keeper's private words.
#pragma once
#include "ui/screens/base/screen.h"
#include "ui/screens/state/yards_state.h"

namespace ui {

Ask card_page(Touch& t, Rect room, YardsView& v, const engine::Yard& yard);

}  // namespace ui
