// ui/screens/walk/panels/walk_dose.h -- the dose of the next setting.
#pragma once
#include "ui/screens/state/walk_state.h"

namespace ui {

Ask walk_dose(Touch& t, const Rect& room, const Look& look, const engine::Walk& walk,
              WalkView& view);

}  // namespace ui
