// ui/screens/register/register_late.h -- entering vapor and passing over afterwards.
#pragma once
#include "ui/screens/base/screen.h"
#include "ui/screens/state/register_state.h"

namespace ui {

// Vapor and passing over entered afterwards.
Ask late_page(Touch& t, Rect room, const Look& look, RegisterView& v);

}  // namespace ui
