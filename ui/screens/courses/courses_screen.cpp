// Courses: the rounds of all yards, planning them on the keeper's evenings, and those evenings.
#include "ui/screens/courses/courses_screen.h"

#include <fmt/format.h>

#include <algorithm>

#include "engine/calendar/propose.h"
#include "engine/season/brood.h"
#include "engine/season/outlook.h"
#include "ui/screens/answers/answers.h"
#include "ui/screens/base/cards.h"
#include "ui/screens/base/layout.h"
#include "ui/screens/base/pictured.h"
#include "ui/screens/courses/calendar_evening.h"
#include "ui/screens/courses/calendar_page.h"
#include "ui/screens/courses/courses_methods.h"
#include "ui/screens/courses/courses_outlook.h"
#include "ui/screens/courses/courses_plan.h"
#include "ui/screens/courses/courses_verdict.h"
#include "ui/screens/courses/courses_yard.h"
#include "ui/screens/words/count_words.h"
#include "ui/screens/words/courses_words.h"

namespace ui {

namespace {

void set_tag(Row& row, std::string tag, Mark mark, Surface surface) {
  row.tag = std::move(tag);
  row.mark = mark;
  row.tag_surface = surface;
}

// The yard's last courses failed one after another: that is more than bad luck.
void tell_failing(Row& row, const Look& look, engine::YardId yard) {
  const engine::FailingYard* f = look.answers.season.failing(look.farm, yard, look.today());
  if (f == nullptr) return;
  row.second = fmt::format("{} courses in a row failed: {}", f->in_a_row, engine::kCheckWhy);
  set_tag(row, "FAILED", Mark::Warning, Surface::Warning);
}

void course_state(Row& row, const Look& look, const engine::Course& course) {
  const auto& rounds = look.answers.season.rounds(look.farm, course, look.today());
  const auto next = std::find_if(rounds.begin(), rounds.end(),
                                 [](const engine::RoundState& r) { return !r.walked; });
  if (next == rounds.end()) {
    const auto* outcome = look.answers.season.outcome(look.farm, course.yard, look.today());
    const bool counted = outcome != nullptr && outcome->course == course.id;
    row.second = counted ? "counted before and after" : "all rounds walked: count after them";
    if (counted && outcome->failed) return set_tag(row, "FAILED", Mark::Warning, Surface::Warning);
    if (counted) return set_tag(row, "DID IT WORK?", Mark::Dot, Surface::Panel);
    return set_tag(row, "COUNT AFTER", Mark::Dot, Surface::Warning);
  }
  row.second = fmt::format("next on {} ({})", short_day(next->planned, look.today()),
                           from_today(next->planned, look.today()));
  const bool late = next->planned < look.today();
  set_tag(row,
          late ? std::string("OVERDUE")
               : fmt::format("ROUND {} OF {}", next - rounds.begin() + 1, rounds.size()),
          late ? Mark::Warning : Mark::Clock, late ? Surface::Warning : Surface::Active);
}

Row yard_row(const Look& look, const engine::Yard& yard) {
  Row row{.title = yard.name};
  row.id = engine::text(yard.id);
  if (const engine::Course* course = course_of(look.farm, yard.id)) {
    course_state(row, look, *course);
    return row;
  }
  row.second = "no course";
  if (const auto* y = look.answers.season.yard(look.farm, yard.id, look.today())) {
    const DecisionLook shown =
        look_of(look.answers.season.answer(look.farm, yard.id, look.today()), *y);
    set_tag(row, shown.tag, shown.mark, shown.surface);
  }
  tell_failing(row, look, yard.id);
  return row;
}

// Yards without rounds that their counts say to treat: those that lead on Today.
std::set<engine::YardId> to_treat(const Look& look) {
  std::set<engine::YardId> found;
  for (const engine::AgendaItem& item :
       look.answers.season.agenda(look.farm, look.methods, look.today()))
    if (item.kind == engine::AgendaKind::Treat) found.insert(item.yard);
  return found;
}

Ask course_list(Touch& t, Rect room, const Look& look, CoursesView& v) {
  head(t, room, "Courses", "the rounds that belong together");
  const auto all = engine::yards(look.farm);
  if (all.empty()) {
    if (empty_page(t, room, Icon::Yards, "Rounds are planned for a yard: there is none yet.",
                   "Add a yard"))
      return ToNewYard{};
    return {};
  }
  const bool missed = !look.answers.season.missed(look, around(look)).empty();
  std::vector<Act> list = {{.label = "Plan rounds", .surface = Surface::Action, .big = true},
                           {.label = "Evenings"}};
  if (missed) list.push_back({.label = "Missed rounds", .surface = Surface::Warning});
  const auto act = acts(t, room, list);
  const auto card_at = [&](std::size_t i) {
    const Row row = yard_row(look, *all[i]);
    return Card{row.title, row.id, row.title, row.second, row.tag, row.mark, row.tag_surface};
  };
  if (const auto tapped = cards(t, room, v.page, all.size(), card_at)) {
    v.yard = all[*tapped]->id;
    v.page_of = CoursesPage::Yard;
    v.line_page = 0;
  }
  if (!act) return {};
  v.yard.reset();
  v.line_page = v.calendar_page = 0;
  constexpr CoursesPage kPages[] = {CoursesPage::Plan, CoursesPage::Calendar, CoursesPage::Missed};
  v.page_of = kPages[*act];
  if (*act == 0) v.wanted = to_treat(look);
  return {};
}

// The new days are looked at first, then taken by one tap.
Ask missed_page(Touch& t, Rect room, const Look& look, CoursesView& v) {
  const engine::Proposal& p = look.answers.season.missed(look, around(look));
  const engine::Body moved = engine::CoursesPlanned{p.courses, "missed rounds moved"};
  bool back = false;
  head(t, room, "Missed rounds", "due before today and not walked", &back);
  const Act list[] = {{.label = "Take the new days",
                       .enabled = !p.empty() && why_not(look, moved) == engine::Refusal::None,
                       .surface = Surface::Action,
                       .big = true}};
  const bool take = acts(t, room, list).has_value();
  paragraphs(t, room, v.line_page, proposal_lines(p, look.today()));
  if (back || take) v.page_of = CoursesPage::List;
  if (!take) return {};
  return moved;
}

Ask yard_pages(Touch& t, const Rect& room, const Look& look, CoursesView& v,
               const engine::Yard& yard) {
  if (v.page_of == CoursesPage::Outlook) return outlook_page(t, room, look, v, yard), Ask{};
  if (v.page_of == CoursesPage::Verdict) return verdict_page(t, room, look, v, yard), Ask{};
  if (v.page_of == CoursesPage::Brood) return brood_page(t, room, look, v, yard);
  if (v.page_of != CoursesPage::Methods) return course_page(t, room, look, v, yard);
  methods_page(t, room, look, v, yard);
  return {};
}

}  // namespace

Ask courses_screen(Touch& t, const Rect& room, const Look& look, CoursesView& v) {
  switch (v.page_of) {
    case CoursesPage::Plan:
      return plan_page(t, room, look, v);
    case CoursesPage::BroodAsked:
      return brood_asked_page(t, room, look, v);
    case CoursesPage::Missed:
      return missed_page(t, room, look, v);
    case CoursesPage::Calendar:
      calendar_page(t, room, look, v);
      return {};
    case CoursesPage::Evening:
      return evening_page(t, room, look, v, v.evening.value_or(look.today()));
    case CoursesPage::Free:
      return free_evenings(t, room, look, v);
    case CoursesPage::List:
      return course_list(t, room, look, v);
    default:
      break;
  }
  const auto yard = v.yard ? look.farm.yards.find(*v.yard) : look.farm.yards.end();
  if (yard == look.farm.yards.end() || yard->second.lost) return course_list(t, room, look, v);
  return yard_pages(t, room, look, v, yard->second);
}

}  // namespace ui
