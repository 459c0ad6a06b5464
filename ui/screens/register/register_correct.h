// ui/screens/register/register_correct.h -- correcting an entry.
#pragma once
#include "ui/screens/base/screen.h"
#include "ui/screens/state/register_state.h"

namespace ui {

// What the entry should have said.
Ask correct_page(Touch& t, Rect room, const Look& look, RegisterView& v);
[[nodiscard]] bool can_correct(const engine::Entry& entry);
void begin_correct(RegisterView& v, const engine::Entry& entry);

}  // namespace ui
