// ui/screens/register_parts.h -- the pages behind the register. Internal to ui/screens.
#pragma once
#include "engine/register/day.h"
#include "ui/screens/grammar.h"
#include "ui/screens/views.h"

namespace ui {

// register_entry.cpp: one entry in full, and striking it.
Ask entry_page(Touch& t, Rect room, const Look& look, RegisterView& v, const engine::Entry& entry);
// register_write.cpp: the log onto a stick or into a folder.
Ask write_page(Touch& t, Rect room, const Look& look, RegisterView& v, engine::Date day);

}  // namespace ui
