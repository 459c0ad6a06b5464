// ui/screens/courses/course_pages.h -- the pages behind the list of courses. Internal to
// ui/screens.
#pragma once
#include <optional>
#include <string>
#include <vector>

#include "engine/calendar/propose.h"
#include "engine/season/brood.h"
#include "engine/season/outlook.h"
#include "ui/screens/base/layout.h"
#include "ui/screens/shell/views.h"

namespace ui {

// courses_words.cpp
[[nodiscard]] engine::Surrounding around(const Look& look);  // no longer than the Look
// Days of a line as the screens write them: "2026-08-19" becomes "19 Aug".
[[nodiscard]] std::string with_days(std::string line, engine::Date today);
[[nodiscard]] std::vector<std::string> proposal_lines(const engine::Proposal& p,
                                                      engine::Date today);
// The yard's newest course that is not ended; nullptr: none.
[[nodiscard]] const engine::Course* course_of(const engine::Farm& farm, engine::YardId yard);
// Days on which no colony of the yard has capped brood, as far as every one of them was noted.
[[nodiscard]] std::optional<engine::BroodlessWindow> yard_window(const Look& look,
                                                                 engine::YardId yard);
[[nodiscard]] std::string window_line(const engine::BroodlessWindow& w, engine::Date today);

// courses_plan.cpp: which yards, how many rounds, on which evenings; one tap takes the plan.
Ask plan_page(Touch& t, Rect room, const Look& look, Views& views);
// courses_yard.cpp: the brood strip of a yard's course, and what stands around it.
Ask course_page(Touch& t, Rect room, const Look& look, Views& views, const engine::Yard& yard);
// courses_outlook.cpp: the expected wash with and without rounds; a band, and the word "model".
[[nodiscard]] engine::OptionsAsk options_ask(const Look& look, const CoursesView& v);
void outlook_page(Touch& t, Rect room, const Look& look, Views& views, const engine::Yard& yard);
// courses_verdict.cpp: did it work, from counts before and after alone.
void verdict_page(Touch& t, Rect room, const Look& look, Views& views, const engine::Yard& yard);
// courses_methods.cpp: which treatment may be used now, and why not.
void methods_page(Touch& t, Rect room, const Look& look, Views& views, const engine::Yard& yard);
Ask brood_page(Touch& t, Rect room, const Look& look, CoursesView& v, const engine::Yard& yard);
// calendar_page.cpp, calendar_evening.cpp
void calendar_page(Touch& t, Rect room, const Look& look, Views& views);
Ask evening_page(Touch& t, Rect room, const Look& look, Views& views, engine::Date on);
Ask free_evenings(Touch& t, Rect room, const Look& look, CoursesView& v);
// The rounds that lie on an evening, done or not.
struct RoundOn {
  engine::YardId yard;
  int number = 1, of = 1;
  bool walked = false;
};
[[nodiscard]] std::vector<RoundOn> rounds_on(const Look& look, SeasonCache& season,
                                             engine::Date on);

}  // namespace ui
