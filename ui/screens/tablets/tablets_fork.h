// ui/screens/tablets/tablets_fork.h -- settling a fork.
#pragma once
#include "engine/words/contradictions.h"
#include "ui/screens/base/screen.h"
#include "ui/screens/state/register_state.h"

namespace ui {

// Settling a fork, or striking one side of it.
Ask fork_page(Touch& t, Rect room, const Look& look, TabletsView& v, const engine::Contradicted& c);
void count_sides(const Look& look, TabletsView& v, const engine::Contradicted& c);

}  // namespace ui
