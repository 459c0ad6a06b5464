// ui/screens/setup/setup_pages.h -- the pages behind Setup. Internal to ui/screens.
#pragma once
#include "ui/screens/base/layout.h"
#include "ui/screens/state/setup_state.h"

namespace ui {

// setup_label.cpp: the list of profiles, and one of them in full.
Ask label_section(Touch& t, Rect room, const Look& look, SetupView& v);
Ask label_page(Touch& t, Rect room, const Look& look, SetupView& v, const LabelSeen& label);
void refused_page(Touch& t, Rect room, const Look& look, SetupView& v);
// setup_numbers.cpp: the numbers of the profile in force, each by the keypad.
Ask numbers_section(Touch& t, Rect room, const Look& look, SetupView& v);
// True while something is typed over the screen.
bool typing_numbers(Touch& t, const Look& look, SetupView& v);
// setup_backups.cpp: whole copies of the store, made and taken in.
Ask backups_page(Touch& t, Rect room, const Look& look, SetupView& v);
Ask backup_page(Touch& t, Rect room, const Look& look, SetupView& v);
// setup_own.cpp: thresholds, upkeep, home. `covered` is set while something is typed over the
// screen.
void own_section(Touch& t, const Rect& room, const Look& look, SetupView& v);
Ask typing_own(Touch& t, const Look& look, SetupView& v, bool& covered);
Ask home_page(Touch& t, Rect room, const Look& look, SetupView& v);

}  // namespace ui
