// ui/screens/setup/setup_label.h -- the label profiles.
#pragma once
#include "ui/screens/base/screen.h"
#include "ui/screens/state/setup_state.h"

namespace ui {

// The list of profiles, and one of them in full.
Ask label_section(Touch& t, Rect room, const Look& look, SetupView& v);
Ask label_page(Touch& t, Rect room, const Look& look, SetupView& v, const LabelSeen& label);
void refused_page(Touch& t, Rect room, const Look& look, SetupView& v);

}  // namespace ui
