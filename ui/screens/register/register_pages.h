// ui/screens/register/register_pages.h -- the pages behind the register. Internal to ui/screens.
#pragma once
#include "engine/register/day.h"
#include "ui/screens/base/layout.h"
#include "ui/screens/state/register_state.h"

namespace ui {

// register_entry.cpp: one entry in full, and striking it.
Ask entry_page(Touch& t, Rect room, const Look& look, RegisterView& v, const engine::Entry& entry);
// register_correct.cpp: what the entry should have said.
Ask correct_page(Touch& t, Rect room, const Look& look, RegisterView& v);
[[nodiscard]] bool can_correct(const engine::Entry& entry);
void begin_correct(RegisterView& v, const engine::Entry& entry);
// register_late.cpp: vapor and passing over entered afterwards.
Ask late_page(Touch& t, Rect room, const Look& look, RegisterView& v);
// register_find.cpp: the register's rows by yard, colony, period and lot.
Ask find_page(Touch& t, Rect room, const Look& look, RegisterView& v);
// Looks on for a frame; nullptr: the book is still being read. Both need another frame then.
[[nodiscard]] const engine::Search* search_on(Touch& t, const Look& look, FindView& v);
[[nodiscard]] const std::vector<engine::LotWanted>& lots_of(const Look& look, FindView& v);
[[nodiscard]] std::string found_words(const engine::Search* search, const char* one,
                                      const char* many, std::size_t count);
// register_lots.cpp: the lots, and which colonies got one.
void lots_page(Touch& t, Rect room, const Look& look, RegisterView& v);
void lot_colonies(Touch& t, Rect room, const Look& look, RegisterView& v);
// register_write.cpp: the log onto a stick or into a folder.
Ask write_page(Touch& t, Rect room, const Look& look, RegisterView& v, engine::Date day);

}  // namespace ui
