// ui/screens/tablets/pairing_page.h -- pairing with another tablet, by words or a code.
#pragma once
#include "ui/screens/base/screen.h"
#include "ui/screens/state/register_state.h"

namespace ui {

// This tablet's words and code; what is held back of others.
Ask pairing_page(Touch& t, Rect room, const Look& look, TabletsView& v);
Ask held_page(Touch& t, Rect room, const Look& look, TabletsView& v, const HeldSeen& held);
[[nodiscard]] Row held_row(const HeldSeen& held);

}  // namespace ui
