// ui/screens/walk/panels/first_aid.h -- what to do when oxalic acid has touched somebody.
#pragma once
#include "ui/screens/base/screen.h"

namespace ui {

// With the keeper's emergency number, and the address of the yard that is walked, where they were
// said. True: it was left.
[[nodiscard]] bool first_aid(Touch& t, const Rect& room, const Look& look);

}  // namespace ui
