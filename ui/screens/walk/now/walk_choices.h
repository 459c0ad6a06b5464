// ui/screens/walk/now/walk_choices.h -- what else may be done instead of the act.
#pragma once
#include "ui/screens/base/screen.h"
#include "ui/screens/state/walk_state.h"
#include "ui/screens/walk/plan/walk_words.h"

namespace ui {

// Takes its place off `room` where there is a choice. Nothing asked: none, or none
// was tapped.
[[nodiscard]] Ask draw_choices(Touch& t, Rect& room, const Look& look, const engine::Walk& walk,
                               UnderWay& view, const Step& step);

}  // namespace ui
