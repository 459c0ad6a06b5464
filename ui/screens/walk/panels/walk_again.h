// ui/screens/walk/panels/walk_again.h -- the protection ticked once more after a break.
#pragma once
#include "ui/screens/state/walk_state.h"

namespace ui {

// Whether the break was long enough; lifting does not wait for it.
[[nodiscard]] bool again_wanted(const Look& look, const engine::Walk& walk, const UnderWay& view);

Ask walk_again(Touch& t, const Rect& room, const Look& look, const engine::Walk& walk,
               WalkView& view);

}  // namespace ui
