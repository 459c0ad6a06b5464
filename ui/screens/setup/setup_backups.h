// ui/screens/setup/setup_backups.h -- whole copies of the store, made and taken in.
#pragma once
#include "ui/screens/base/screen.h"
#include "ui/screens/state/setup_state.h"

namespace ui {

// Whole copies of the store, made and taken in.
Ask backups_page(Touch& t, Rect room, const Look& look, SetupView& v);
Ask backup_page(Touch& t, Rect room, const Look& look, SetupView& v);

}  // namespace ui
