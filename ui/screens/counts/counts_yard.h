// ui/screens/counts/counts_yard.h -- the counts of a yard: dots with limits, the decision and the
// advice.
#pragma once
#include "ui/screens/base/screen.h"
#include "ui/screens/state/count_state.h"

namespace ui {

// The colonies of a yard as dots with limits, the decision and the advice.
void counts_yard(Touch& t, Rect room, const Look& look, CountsView& v, const engine::Yard& yard);

}  // namespace ui
