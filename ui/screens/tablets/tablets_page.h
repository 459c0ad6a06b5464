// ui/screens/tablets/tablets_page.h -- what other tablets brought, and what contradicts.
#pragma once
#include <string>
#include <vector>

#include "ui/screens/base/screen.h"
#include "ui/screens/state/register_state.h"

namespace ui {

// Taking in what other tablets wrote, and settling what contradicts.
Ask tablets_page(Touch& t, Rect room, const Look& look, RegisterView& v);
// What came of taking in bundles or a copy.
[[nodiscard]] std::string taken_in_title(const TakenIn& in);
[[nodiscard]] std::vector<std::string> taken_in_lines(const TakenIn& in);

}  // namespace ui
