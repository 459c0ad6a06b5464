// ui/screens/setup/setup_numbers.h -- the numbers of the label profile in force.
#pragma once
#include "ui/screens/base/screen.h"
#include "ui/screens/state/setup_state.h"

namespace ui {

// The numbers of the profile in force, each by the keypad.
Ask numbers_section(Touch& t, Rect room, const Look& look, SetupView& v);
// True while something is typed over the screen.
bool typing_numbers(Touch& t, const Look& look, SetupView& v);

}  // namespace ui
