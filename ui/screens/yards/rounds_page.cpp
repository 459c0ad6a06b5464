#include "ui/screens/yards/rounds_page.h"

#include <fmt/format.h>

#include <algorithm>

#include "engine/method/obey.h"
#include "engine/rounds/due.h"
#include "ui/screens/answers/answers.h"
#include "ui/screens/base/layout.h"
#include "ui/screens/words/colony_words.h"

namespace ui {

namespace {

constexpr int kMostRounds = 12, kMostEvery = 30, kMostFirst = 120;

// The newest course of the yard that is not ended and has a round left; else nullptr.
const engine::Course* open_course(const Look& look, engine::YardId yard) {
  const engine::Course* found = nullptr;
  for (const auto& [id, course] : look.farm.courses) {
    if (course.yard != yard || course.ended) continue;
    const auto rounds = engine::rounds_of(look.farm, course);
    const bool left = std::any_of(rounds.begin(), rounds.end(),
                                  [](const engine::RoundState& r) { return !r.walked; });
    if (left) found = &course;
  }
  return found;
}

std::vector<Row> round_rows(const Look& look, const engine::Course& course) {
  std::vector<Row> rows;
  for (const engine::RoundState& r : engine::rounds_of(look.farm, course)) {
    Row row{.title = fmt::format("Round {}: {}", rows.size() + 1, day_words(r.planned))};
    if (r.walked) {
      const engine::Walk& walk = look.farm.walks.at(*r.walked);
      row.second = "walked on " + day_words(engine::local_date(walk.opened));
      row.tag = r.whole() ? "DONE" : fmt::format("{} OF {}", r.treated, r.of);
      row.mark = r.whole() ? Mark::Check : Mark::Return;
      row.tag_surface = r.whole() ? Surface::Good : Surface::Warning;
    } else {
      const int over = days_from(r.planned, look.today());
      row.second = from_today(r.planned, look.today());
      row.tag = over > 0 ? "OVERDUE" : over == 0 ? "DUE TODAY" : "COMING";
      row.mark = over > 0 ? Mark::Warning : over == 0 ? Mark::Clock : Mark::Open;
      row.tag_surface = over > 0 ? Surface::Warning : over == 0 ? Surface::Active : Surface::Panel;
    }
    rows.push_back(row);
  }
  return rows;
}

std::vector<engine::Date> drafted(const Look& look, const RoundsDraft& d) {
  std::vector<engine::Date> dates;
  for (int i = 0; i < d.number; ++i)
    dates.push_back(plus_days(look.today(), d.first_in + i * d.every));
  return dates;
}

// Rounds that were walked stay in the course; the new dates come after them.
std::vector<engine::Date> changed(const Look& look, const engine::Course& course,
                                  const RoundsDraft& d) {
  std::vector<engine::Date> dates;
  for (const engine::RoundState& r : engine::rounds_of(look.farm, course))
    if (r.walked) dates.push_back(r.planned);
  for (const engine::Date next : drafted(look, d))
    if (dates.empty() || next > dates.back()) dates.push_back(next);
  return dates;
}

engine::Body planned(const Look& look, const engine::Yard& yard, const RoundsDraft& d) {
  if (const engine::Course* course = open_course(look, yard.id))
    return engine::CourseChanged{course->id, changed(look, *course, d), "dates changed"};
  return engine::CoursePlanned{engine::CourseId{look.fresh_id}, yard.id, drafted(look, d)};
}

void step(int& value, int by, int low, int high) { value = std::clamp(value + by, low, high); }

void steppers(Touch& t, const Rect& room, const Look& look, RoundsDraft& d) {
  const engine::Date first = plus_days(look.today(), d.first_in);
  const std::vector<Rect> cells = rows(room, 3, t.gap());
  const std::string days = engine::counted(static_cast<std::size_t>(d.every), "day", "days");
  step(d.first_in,
       stepper(
           t, cells[0], "First round",
           fmt::format("{} ({})", short_day(first, look.today()), from_today(first, look.today())),
           d.first_in > 0, d.first_in < kMostFirst),
       0, kMostFirst);
  step(d.number,
       stepper(t, cells[1], "Number of rounds", std::to_string(d.number), d.number > 1,
               d.number < kMostRounds),
       1, kMostRounds);
  step(d.every,
       stepper(t, cells[2], "Days between rounds", days, d.every > 1, d.every < kMostEvery), 1,
       kMostEvery);
}

std::string dates_words(const Look& look, const engine::Body& body) {
  const auto* plan = std::get_if<engine::CoursePlanned>(&body);
  const auto& dates = plan ? plan->rounds : std::get<engine::CourseChanged>(body).rounds;
  std::string line = plan ? "Rounds on " : "Rounds, with those walked, on ";
  for (std::size_t i = 0; i < dates.size(); ++i)
    line += (i > 0 ? ", " : "") + short_day(dates[i], look.today());
  return line + ".";
}

// Those behind us are not judged again; the year's treatments count them.
std::vector<engine::Date> still_to_walk(const Look& look, const engine::Body& body) {
  const auto* plan = std::get_if<engine::CoursePlanned>(&body);
  std::vector<engine::Date> dates =
      plan ? plan->rounds : std::get<engine::CourseChanged>(body).rounds;
  std::erase_if(dates, [&](engine::Date d) { return d < look.today(); });
  return dates;
}

}  // namespace

Ask rounds_page(Touch& t, Rect room, const Look& look, YardsView& v, const engine::Yard& yard) {
  const engine::Course* course = open_course(look, yard.id);
  bool back = false;
  head(t, room, yard.name, "rounds of treatment", &back);
  std::vector<Act> list = {
      {.label = course ? "Change dates" : "Plan rounds", .surface = Surface::Action, .big = true}};
  if (course) list.push_back({.label = "End course", .surface = Surface::Warning, .hold = true});
  const auto tapped = acts(t, room, list);
  if (course == nullptr) {
    nothing_here(t, room, "No rounds are planned here.");
  } else {
    list_rows(t, room, v.panel_page, round_rows(look, *course), RowKind::Shown);
  }
  if (back) v.page_of = YardsPage::None;
  if (!tapped) return {};
  if (*tapped == 1) return engine::Body{engine::CourseEnded{course->id, "ended by the keeper"}};
  v.rounds = {};
  v.page_of = YardsPage::PlanRounds;
  return {};
}

Ask plan_rounds(Touch& t, Rect room, const Look& look, YardsView& v, const engine::Yard& yard) {
  bool back = false;
  head(t, room, yard.name, "plan rounds", &back);
  const engine::Body body = planned(look, yard, v.rounds);
  const auto against = engine::course_against_label(look.farm, yard.id, still_to_walk(look, body));
  const Act list[] = {{.label = "Save rounds",
                       .second = against.empty() ? "" : "against the label: hold",
                       .enabled = why_not(look, body) == engine::Refusal::None,
                       .surface = against.empty() ? Surface::Action : Surface::Warning,
                       .hold = !against.empty(),
                       .big = true}};
  const bool save = acts(t, room, list).has_value();
  const Rect words = cut_bottom(room, std::min(t.mm(40), room.h * 0.42F), t.gap());
  room.h = std::min(room.h, t.mm(66));
  steppers(t, room, look, v.rounds);
  // Derived: a worker cell stays capped for about 12 days (Winston 1987), a drone cell about 15.
  std::vector<std::string> lines = {dates_words(look, body)};
  for (const std::string& line : against) lines.push_back("Against your label: " + line);
  lines.emplace_back(
      "With sealed brood, rounds that together span 12 days (15 with drone brood) meet mites from "
      "cells sealed at the first. This alone does not prove that it worked: count after. Your "
      "label decides how often and how much.");
  told(t, words, "", lines);
  if (back || save) v.page_of = YardsPage::Rounds;
  if (!save) return {};
  return body;
}

}  // namespace ui
