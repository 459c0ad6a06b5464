// ui/screens/courses/course_pages.h -- the pages behind the list of courses. Internal to
// ui/screens.
#pragma once
#include <optional>
#include <string>
#include <vector>

#include "engine/calendar/propose.h"
#include "engine/season/brood.h"
#include "engine/season/outlook.h"
#include "ui/screens/answers/answers.h"
#include "ui/screens/base/layout.h"
#include "ui/screens/state/courses_state.h"
#include "ui/screens/words/courses_words.h"

namespace ui {

// courses_plan.cpp: which yards, how many rounds, on which evenings; one tap takes the plan.
Ask plan_page(Touch& t, Rect room, const Look& look, CoursesView& v);
// courses_yard.cpp: the brood strip of a yard's course, and what stands around it.
Ask course_page(Touch& t, Rect room, const Look& look, CoursesView& v, const engine::Yard& yard);
// courses_outlook.cpp: the expected wash with and without rounds; a band, and the word "model".
[[nodiscard]] engine::OptionsAsk options_ask(const Look& look, const CoursesView& v);
void outlook_page(Touch& t, Rect room, const Look& look, CoursesView& v, const engine::Yard& yard);
// courses_verdict.cpp: did it work, from counts before and after alone.
void verdict_page(Touch& t, Rect room, const Look& look, CoursesView& v, const engine::Yard& yard);
// courses_methods.cpp: which treatment may be used now, and why not.
void methods_page(Touch& t, Rect room, const Look& look, CoursesView& v, const engine::Yard& yard);
Ask brood_page(Touch& t, Rect room, const Look& look, CoursesView& v, const engine::Yard& yard);
// calendar_page.cpp, calendar_evening.cpp
void calendar_page(Touch& t, Rect room, const Look& look, CoursesView& v);
Ask evening_page(Touch& t, Rect room, const Look& look, CoursesView& v, engine::Date on);
Ask free_evenings(Touch& t, Rect room, const Look& look, CoursesView& v);
}  // namespace ui
