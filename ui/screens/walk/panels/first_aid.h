// ui/screens/walk/panels/first_aid.h -- what to do when oxalic acid has touched somebody.
#pragma once
#include "ui/touch/widgets.h"

namespace ui {

// True: it was left.
[[nodiscard]] bool first_aid(Touch& t, const Rect& room);

}  // namespace ui
