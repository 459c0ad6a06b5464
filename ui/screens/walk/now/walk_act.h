// ui/screens/walk/now/walk_act.h -- the one button for what to do now, with a drawing of it.
#pragma once
#include "ui/screens/base/screen.h"
#include "ui/screens/walk/plan/walk_words.h"

namespace ui {

// True in the frame in which it counted. Where a tap is too little it has to be held, and says why.
bool draw_act(Touch& t, const Rect& rect, const Look& look, const engine::Walk& walk,
              const Step& step);

}  // namespace ui
