// ui/screens/walk/now/walk_timers.h -- the clocks of vapor and cloths on the walk screen.
#pragma once
#include "ui/screens/state/walk_state.h"
#include "ui/screens/walk/plan/walk_words.h"

namespace ui {

// What runs now, in the largest digits: the vapor; with several vaporizers a tile for each; where
// none is in a hive, the dose of the next one, or how long until the step. A tapped tile chooses
// its colony.
void draw_now(Touch& t, const Rect& rect, const Look& look, const engine::Walk& walk,
              UnderWay& view, const Step& step);

// Each cloth with the colony where it lies; tapping chooses that colony.
void draw_cloths(Touch& t, const Rect& rect, const Look& look, const engine::Walk& walk,
                 UnderWay& view);

}  // namespace ui
