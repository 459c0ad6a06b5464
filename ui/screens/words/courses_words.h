// ui/screens/words/courses_words.h -- how rounds, proposals and brood windows are said.
#pragma once
#include <optional>
#include <string>
#include <vector>

#include "engine/calendar/propose.h"
#include "engine/season/brood.h"
#include "engine/season/outlook.h"
#include "ui/screens/answers/answers.h"
#include "ui/screens/base/layout.h"

namespace ui {

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

// The rounds that lie on an evening, done or not.
struct RoundOn {
  engine::YardId yard;
  int number = 1, of = 1;
  bool walked = false;
  bool whole = false;  // walked, and no colony of the yard was left out
  std::string said{};  // "walked", "8 of 16 treated", or nothing
};
[[nodiscard]] std::vector<RoundOn> rounds_on(const Look& look, engine::Date on);

}  // namespace ui
