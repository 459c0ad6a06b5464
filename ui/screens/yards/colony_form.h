// ui/screens/yards/colony_form.h -- adding and changing a colony.
#pragma once
#include "ui/screens/base/screen.h"
#include "ui/screens/state/yards_state.h"

namespace ui {

// Adding and changing a colony.
Ask colony_form(Touch& t, Rect room, const Look& look, YardsView& v, const engine::Yard& yard);
void draft_new_colony(const Look& look, YardsView& v, const engine::Yard& yard);
void draft_of(const engine::Colony& colony, YardsView& v);

}  // namespace ui
