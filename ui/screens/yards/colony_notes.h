// ui/screens/yards/colony_notes.h -- notes on a colony or yard; settling, losing and moving a
// colony.
#pragma once
#include "ui/screens/base/screen.h"
#include "ui/screens/state/yards_state.h"

namespace ui {

// Phrases and own words; settle, lose and move.
Ask note_page(Touch& t, Rect room, const Look& look, YardsView& v, const engine::Yard& yard,
              const engine::Colony* colony);
Ask settle_page(Touch& t, Rect room, const Look& look, YardsView& v, const engine::Colony& colony);
Ask lost_page(Touch& t, Rect room, const Look& look, YardsView& v, const engine::Colony& colony);
Ask move_page(Touch& t, Rect room, const Look& look, YardsView& v, const engine::Colony& colony);

}  // namespace ui
