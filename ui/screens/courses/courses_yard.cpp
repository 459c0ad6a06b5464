#include "ui/screens/courses/courses_yard.h"

#include <fmt/format.h>

#include <algorithm>

#include "engine/calendar/propose.h"
#include "engine/season/brood.h"
#include "engine/season/outlook.h"
#include "ui/screens/answers/answers.h"
#include "ui/screens/base/layout.h"
#include "ui/screens/words/courses_words.h"

namespace ui {

namespace {

using engine::Course;
using Rounds = std::vector<engine::RoundState>;

// Worker cells stay capped for 12 days and drone cells for 14, some a day longer (textbook; the
// share that is late is this project's assumption).
constexpr int kWorkerAllOpen = 13, kDroneAllOpen = 15;
constexpr int kDaysAfterLast = 21;  // after the last round

LaneBar round_bar(const engine::RoundState& r, std::size_t n, engine::Date first,
                  engine::Date today) {
  const double at = days_from(first, r.planned);
  const bool late = !r.walked && r.planned < today;
  LaneBar bar{at, at + 1, std::to_string(n)};
  const bool part = r.walked && !r.whole();
  bar.mark = part ? Mark::Return : r.walked ? Mark::Check : late ? Mark::Warning : Mark::Open;
  bar.surface = r.whole() ? Surface::Waiting : late || part ? Surface::Warning : Surface::Active;
  return bar;
}

Lanes strip_of(const Look& look, const Rounds& rounds) {
  const engine::Date first = rounds.front().planned, last = rounds.back().planned;
  const int end = std::max(days_from(first, last) + kDaysAfterLast, kDroneAllOpen + 2);
  Lanes strip;
  strip.x =
      day_scale(0, end, 6, [&](int day) { return short_day(plus_days(first, day), look.today()); });
  strip.x_title = "day";
  Lane lane{"Rounds", {}};
  for (std::size_t i = 0; i < rounds.size(); ++i)
    lane.bars.push_back(round_bar(rounds[i], i + 1, first, look.today()));
  strip.lanes = {lane,
                 {"Worker cells of round 1",
                  {{0, kWorkerAllOpen, "opening", Mark::None, Surface::Panel, Pattern::Slanted}}},
                 {"Drone cells of round 1",
                  {{0, kDroneAllOpen, "opening", Mark::None, Surface::Panel, Pattern::Upright}}}};
  const int today = days_from(first, look.today());
  if (today >= 0 && today <= end)
    strip.moments.push_back({static_cast<double>(today), Mark::Clock, "today"});
  strip.moments.push_back(
      {static_cast<double>(days_from(first, last) + engine::kDaysToPostCount), Mark::Dot, "count"});
  return strip;
}

std::vector<std::string> course_lines(const Look& look, const Rounds& rounds) {
  const engine::Date first = rounds.front().planned, last = rounds.back().planned;
  std::vector<std::string> lines;
  for (std::size_t i = 0; i < rounds.size(); ++i) {
    const auto& r = rounds[i];
    lines.push_back(
        fmt::format("Round {}: {}, {}", i + 1, short_day(r.planned, look.today()),
                    r.walked ? engine::walked_words(r) : from_today(r.planned, look.today())));
  }
  lines.push_back(fmt::format(
      "Worker cells capped at round 1 are open by {}, drone cells by {}. That is not how well it "
      "works: most mites that come out are back under a cap before the next round.",
      short_day(plus_days(first, kWorkerAllOpen), look.today()),
      short_day(plus_days(first, kDroneAllOpen), look.today())));
  lines.push_back(fmt::format("Count after: about {}. Only that count tells whether it worked.",
                              short_day(plus_days(last, engine::kDaysToPostCount), look.today())));
  return lines;
}

std::vector<std::string> no_course_lines(const Look& look, const engine::Yard& yard) {
  std::vector<std::string> lines;
  if (const auto w = yard_window(look, yard.id)) lines.push_back(window_line(*w, look.today()));
  const engine::YardCount* y = look.answers.season.yard(look.farm, yard.id, look.today());
  lines.push_back(y ? y->sentence : "Not counted: count before you decide to treat.");
  if (const engine::Growth* g = look.answers.season.growth(look.farm, yard.id, look.today()))
    for (const std::string& line : g->lines) lines.push_back(with_days(line, look.today()));
  return lines;
}

CoursesPage page_named(const std::string& label) {
  if (label == "Plan rounds") return CoursesPage::Plan;
  if (label == "What to expect") return CoursesPage::Outlook;
  if (label == "Did it work?") return CoursesPage::Verdict;
  return label == "Which treatment" ? CoursesPage::Methods : CoursesPage::Brood;
}

}  // namespace

Ask course_page(Touch& t, Rect room, const Look& look, CoursesView& v, const engine::Yard& yard) {
  const Course* course = course_of(look.farm, yard.id);
  const Rounds rounds = course ? engine::rounds_of(look.farm, *course) : Rounds{};
  bool back = false;
  head(t, room, yard.name, rounds.empty() ? "no course" : "course of treatment", &back);
  if (back) v.page_of = CoursesPage::List;
  std::vector<Act> list = {
      {.label = "What to expect"}, {.label = "Which treatment"}, {.label = "Brood and queens"}};
  if (look.answers.season.outcome(look.farm, yard.id, look.today()) != nullptr)
    list.insert(list.begin(), {.label = "Did it work?", .surface = Surface::Action});
  if (course == nullptr)
    list.insert(list.begin(), {.label = "Plan rounds", .surface = Surface::Action, .big = true});
  else
    list.push_back({.label = "End course", .surface = Surface::Warning, .hold = true});
  const auto tapped = acts(t, room, list);
  if (rounds.empty()) {
    paragraphs(t, room, v.line_page, no_course_lines(look, yard));
  } else {
    lanes(t, cut_top(room, lanes_height(t, 3, true), t.gap()), strip_of(look, rounds));
    paragraphs(t, room, v.line_page, course_lines(look, rounds));
  }
  if (!tapped) return {};
  const std::string& label = list[*tapped].label;
  if (label == "End course")
    return engine::Body{engine::CourseEnded{course->id, "ended by the keeper"}};
  if (label == "Plan rounds") v.wanted = {yard.id};
  v.line_page = v.plan_page = 0;
  v.why_told = false;
  v.option = 0;
  v.page_of = page_named(label);
  return {};
}

}  // namespace ui
