// ui/screens/walk/open/walk_left_on.h -- a cloth that an earlier walk left lying.
#pragma once
#include "ui/screens/base/screen.h"

namespace ui {

// Offers to take it off in a strip that is cut off `room`; nothing where no cloth lies in the yard.
Ask cloth_left_on(Touch& t, Rect& room, const Look& look, engine::YardId yard);

}  // namespace ui
