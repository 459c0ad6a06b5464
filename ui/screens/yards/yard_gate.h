// ui/screens/yards/yard_gate.h -- where the gate of a yard is.
#pragma once
#include "ui/screens/base/screen.h"
#include "ui/screens/state/yards_state.h"

namespace ui {

Ask gate_page(Touch& t, Rect room, const Look& look, YardsView& v, const engine::Yard& yard);

}  // namespace ui
