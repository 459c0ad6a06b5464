// ui/screens/yards/yard_more.h -- what is rarely done with a yard.
#pragma once
#include "ui/screens/base/screen.h"
#include "ui/screens/state/yards_state.h"

namespace ui {

// Rename, note, give up.
Ask yard_more(Touch& t, Rect room, const Look& look, YardsView& v, const engine::Yard& yard);

}  // namespace ui
