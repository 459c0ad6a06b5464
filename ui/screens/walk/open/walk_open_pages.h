// ui/screens/walk/open/walk_open_pages.h -- opening a walk: the first page, or one of those behind
// its buttons.
#pragma once
#include "ui/screens/state/walk_state.h"

namespace ui {

// Opening::yard is set.
Ask walk_open_page(Touch& t, const Rect& room, const Look& look, WalkView& view);

}  // namespace ui
