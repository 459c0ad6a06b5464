// ui/screens/register/register_write.h -- writing the log onto a stick or into a folder.
#pragma once
#include "ui/screens/base/screen.h"
#include "ui/screens/state/register_state.h"

namespace ui {

// The log onto a stick or into a folder.
Ask write_page(Touch& t, Rect room, const Look& look, RegisterView& v, engine::Date day);

}  // namespace ui
