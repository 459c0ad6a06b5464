// ui/screens/register/register_lots.h -- the lots of acid, and which colonies got one.
#pragma once
#include "ui/screens/base/screen.h"
#include "ui/screens/state/register_state.h"

namespace ui {

// The lots, and which colonies got one.
void lots_page(Touch& t, Rect room, const Look& look, RegisterView& v);
void lot_colonies(Touch& t, Rect room, const Look& look, RegisterView& v);

}  // namespace ui
