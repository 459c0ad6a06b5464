// ui/screens/tablets/tablets_join.h -- making one of what was entered twice.
#pragma once
#include "engine/words/contradictions.h"
#include "ui/screens/base/screen.h"
#include "ui/screens/state/register_state.h"

namespace ui {

// Making one of what was entered twice.
Ask join_page(Touch& t, Rect room, const Look& look, TabletsView& v, const engine::Contradicted& c);

}  // namespace ui
