// ui/screens/courses/courses_outlook.h -- the expected wash with and without rounds.
#pragma once
#include "engine/season/outlook.h"
#include "ui/screens/base/screen.h"
#include "ui/screens/state/courses_state.h"

namespace ui {

// The expected wash with and without rounds; a band, and the word "model".
[[nodiscard]] engine::OptionsAsk options_ask(const Look& look, const CoursesView& v);
void outlook_page(Touch& t, Rect room, const Look& look, CoursesView& v, const engine::Yard& yard);

}  // namespace ui
