// ui/screens/register/register_entry.h -- one entry in full, and striking it.
#pragma once
#include "ui/screens/base/screen.h"
#include "ui/screens/state/register_state.h"

namespace ui {

// One entry in full, and striking it.
Ask entry_page(Touch& t, Rect room, const Look& look, RegisterView& v, const engine::Entry& entry);

}  // namespace ui
