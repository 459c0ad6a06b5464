// ui/screens/register/register_find.h -- looking for rows of the register.
#pragma once
#include <string>
#include <vector>

#include "engine/register/search.h"
#include "ui/screens/base/screen.h"
#include "ui/screens/state/register_state.h"

namespace ui {

// The register's rows by yard, colony, period and lot.
Ask find_page(Touch& t, Rect room, const Look& look, RegisterView& v);
// Looks on for a frame; nullptr: the book is still being read. Both need another frame then.
[[nodiscard]] const engine::Search* search_on(Touch& t, const Look& look, FindView& v);
[[nodiscard]] const std::vector<engine::LotWanted>& lots_of(const Look& look, FindView& v);
[[nodiscard]] std::string found_words(const engine::Search* search, const char* one,
                                      const char* many, std::size_t count);

}  // namespace ui
