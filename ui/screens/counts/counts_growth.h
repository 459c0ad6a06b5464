// ui/screens/counts/counts_growth.h -- what is to be expected if nobody treats.
#pragma once
#include "ui/screens/base/screen.h"
#include "ui/screens/state/count_state.h"

namespace ui {

// What is to be expected to the season's end if nobody treats.
void growth_page(Touch& t, Rect room, const Look& look, CountsView& v, const engine::Yard& yard);

}  // namespace ui
