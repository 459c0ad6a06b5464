#include "ui/screens/courses/courses_plan.h"

#include <fmt/format.h>

#include <algorithm>

#include "engine/calendar/propose.h"
#include "engine/method/obey.h"
#include "engine/season/brood.h"
#include "engine/season/outlook.h"
#include "ui/screens/answers/answers.h"
#include "ui/screens/base/brood_asked.h"
#include "ui/screens/base/layout.h"
#include "ui/screens/words/count_words.h"
#include "ui/screens/words/courses_words.h"

namespace ui {

namespace {

constexpr int kMostRounds = 8, kMostFirst = 60;

// One fresh id a course: the look brings one, the last byte tells them apart.
engine::CourseId course_id(const Look& look, std::size_t n) {
  engine::CourseId id{look.fresh_id};
  id.bytes.back() = static_cast<std::uint8_t>(id.bytes.back() ^ n);
  return id;
}

double urgency(const Look& look, engine::YardId yard) {
  const engine::YardCount* y = look.answers.season.yard(look.farm, yard, look.today());
  return y ? std::clamp(y->estimate.pooled_per_100 / y->threshold.per_100, 0.5, 5.0) : 1;
}

std::vector<engine::CourseWish> wishes(const Look& look, CoursesView& v) {
  std::vector<engine::CourseWish> list;
  for (const engine::YardId yard : v.wanted) {
    engine::CourseWish w{yard, course_id(look, list.size()), v.rounds,
                         plus_days(look.today(), v.first_in)};
    w.urgency = urgency(look, yard);
    const auto window = yard_window(look, yard);
    if (v.window && window) {
      w.rounds = 1;
      w.earliest = std::max(window->first, look.today());
      w.latest = window->last;
    }
    list.push_back(w);
  }
  return list;
}

Row planned_yard_row(const Look& look, CoursesView& v, const engine::Yard& yard) {
  Row row{.title = yard.name};
  row.id = engine::text(yard.id);
  row.chosen = v.wanted.contains(yard.id);
  row.enabled = course_of(look.farm, yard.id) == nullptr;
  if (!row.enabled) row.second = "its course keeps its evenings";
  if (const auto* y = look.answers.season.yard(look.farm, yard.id, look.today())) {
    const DecisionLook shown = look_of(y->decision, y->by_point_estimate);
    row.tag = shown.tag, row.mark = shown.mark, row.tag_surface = shown.surface;
  }
  if (row.chosen) row.tag = "PLAN", row.mark = Mark::Check, row.tag_surface = Surface::Chosen;
  return row;
}

void choose_yards(Touch& t, const Rect& room, const Look& look, CoursesView& v) {
  const auto all = engine::yards(look.farm);
  const auto row_at = [&](std::size_t i) {
    Row row = planned_yard_row(look, v, *all[i]);
    fit_row(t, row, room.w);
    return row;
  };
  const auto tapped = list_rows(t, room, v.plan_page, all.size(), row_at);
  if (!tapped) return;
  const engine::YardId id = all[*tapped]->id;
  if (v.wanted.erase(id) == 0) v.wanted.insert(id);
  v.insist = false;
  v.line_page = 0;
}

void step(int& value, int by, int low, int high) { value = std::clamp(value + by, low, high); }

void steppers(Touch& t, const Rect& room, const Look& look, CoursesView& v) {
  const std::vector<Rect> cells = rows(room, 2, t.gap());
  const engine::Date first = plus_days(look.today(), v.first_in);
  step(v.rounds,
       stepper(t, cells[0], "Rounds", std::to_string(v.rounds), v.rounds > 1,
               v.rounds < kMostRounds),
       1, kMostRounds);
  step(v.first_in,
       stepper(t, cells[1], "Not before", short_day(first, look.today()), v.first_in > 0,
               v.first_in < kMostFirst),
       0, kMostFirst);
}

engine::Surrounding asked_of(const Look& look, const CoursesView& v) {
  engine::Surrounding asked = around(look);
  asked.insist = v.insist;
  return asked;
}

std::string why_planned(const engine::Proposal& p) {
  std::string why = "planned on the keeper's evenings";
  for (const std::string& line : p.against) why += "; against the label: " + line;
  for (const std::string& line : p.unanswered) why += "; " + line;
  return why;
}

// Before anything else: a time without brood, there or to be made.
std::string brood_line(const Look& look, const CoursesView& v) {
  for (const engine::YardId yard : v.wanted)
    if (const auto w = yard_window(look, yard)) return window_line(*w, look.today());
  return "A caged or broodless queen first: one round then does more than seven with brood at the "
         "same kill (model). Otherwise the number of rounds decides; 4 to 7 days apart is equal "
         "once they span 12 days; shorter spans do worse.";
}

// Of the yards to plan; the answer is noted today, so it is asked for today.
std::vector<engine::ColonyId> brood_not_known(const Look& look, const CoursesView& v) {
  std::vector<engine::ColonyId> unknown;
  if (!look.farm.setup.rules) return unknown;
  std::vector<engine::ColonyId> all;
  for (const engine::YardId yard : v.wanted)
    for (const engine::Colony* c : engine::colonies_to_treat(look.farm, yard)) all.push_back(c->id);
  return engine::brood_not_known(look.farm, all, *look.farm.setup.rules, look.today());
}

// The side's two answers to what the label refuses: look at the brood, or hold to the plan.
void answer_refusal(Touch& t, Rect& side, const Look& look, CoursesView& v,
                    const engine::Proposal& p) {
  if (p.refused.empty()) return;
  if (hold_button(t, cut_bottom(side, t.least_h(), t.gap()), "Plan it all the same",
                  {.surface = Surface::Warning, .second = "the label speaks against it: hold"}))
    v.insist = true;
  const std::size_t unknown = brood_not_known(look, v).size();
  if (unknown > 0 && button(t, cut_bottom(side, t.least_h(), t.gap()),
                            fmt::format("Brood: not known in {}", unknown)))
    v.page_of = CoursesPage::BroodAsked;
}

}  // namespace

Ask brood_asked_page(Touch& t, Rect room, const Look& look, CoursesView& v) {
  const auto unknown = brood_not_known(look, v);
  bool back = false;
  head(t, room, "Brood where you plan",
       fmt::format("the label asks; noted today for {}",
                   engine::counted(unknown.size(), "colony", "colonies")),
       &back);
  std::vector<Act> list;
  for (const BroodAnswer& a : kBroodAnswers)
    list.push_back({.label = a.label, .second = a.second, .enabled = !unknown.empty()});
  const auto tapped = acts(t, room, list);
  const std::string lines[] = {
      "Vapor does not reach mites under caps. From eggs and larvae there are caps within days.",
      "One answer for all of them: capped brood in one of them is capped brood."};
  paragraphs(t, room, v.line_page, lines);
  if (back || tapped) v.page_of = CoursesPage::Plan;
  if (!tapped) return {};
  const auto note = brood_note(kBroodAnswers[*tapped], unknown, look.today());
  return note ? Ask{engine::Body{*note}} : Ask{};
}

Ask plan_page(Touch& t, Rect room, const Look& look, CoursesView& v) {
  bool back = false;
  head(t, room, "Plan rounds", "for one yard, or several that share the evenings", &back);
  if (back) v.page_of = v.yard ? CoursesPage::Yard : CoursesPage::List;
  if (back) v.insist = false;
  const engine::Proposal none;
  const engine::Proposal& p =
      v.wanted.empty() ? none : look.answers.season.plan(look, wishes(look, v), asked_of(look, v));
  const engine::Body body = engine::CoursesPlanned{p.courses, why_planned(p)};
  const bool fine = !p.empty() && why_not(look, body) == engine::Refusal::None;
  Rect side =
      t.portrait() ? cut_bottom(room, room.h * 0.42F, t.gap()) : cut_right(room, t.mm(74), t.gap());
  const bool save = button(t, cut_bottom(side, t.mm(18), t.gap()), "Take this plan",
                           {.enabled = fine, .surface = Surface::Action, .large = true});
  answer_refusal(t, side, look, v, p);
  std::vector<std::string> lines = proposal_lines(p, look.today());
  for (const std::string& line : p.against) lines.push_back("Against your label: " + line);
  lines.insert(lines.end(), p.unanswered.begin(), p.unanswered.end());
  if (v.wanted.empty()) lines = {"Tap the yards to plan."};
  lines.push_back(brood_line(look, v));
  lines.emplace_back("Your label decides how often, how much and how far apart.");
  told(t, side, "", lines);
  steppers(t, cut_bottom(room, t.mm(33), t.gap()), look, v);
  const bool one = v.wanted.size() == 1 && yard_window(look, *v.wanted.begin());
  if (one && check_row(t, cut_bottom(room, t.mm(15), t.gap()), "One round in the broodless time",
                       v.window))
    v.window = !v.window;
  choose_yards(t, room, look, v);
  if (!save) return {};
  v.insist = false;
  v.page_of = CoursesPage::List;
  return body;
}

}  // namespace ui
