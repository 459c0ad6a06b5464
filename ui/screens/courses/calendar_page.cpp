#include "ui/screens/courses/calendar_page.h"

#include <fmt/format.h>

#include <algorithm>
#include <cctype>

#include "engine/calendar/evenings.h"
#include "engine/calendar/propose.h"
#include "engine/season/brood.h"
#include "engine/season/outlook.h"
#include "ui/screens/answers/answers.h"
#include "ui/screens/base/layout.h"
#include "ui/screens/words/courses_words.h"

namespace ui {

namespace {

constexpr int kDaysShown = 42;
// Of its days behind today, so that what was done stands on it too.
constexpr int kDaysBefore = 7;

std::string yards_words(const Look& look, const std::vector<RoundOn>& rounds) {
  std::string out;
  for (const RoundOn& r : rounds)
    out += fmt::format("{}{} {}/{}", out.empty() ? "" : ", ", look.farm.yards.at(r.yard).name,
                       r.number, r.of);
  return out;
}

Row evening_row(const Look& look, engine::Date on) {
  const engine::Evenings& evenings = look.farm.evenings;
  const std::vector<RoundOn> rounds = rounds_on(look, on);
  Row row{.title = day_words(on)};
  row.id = engine::iso_date(on);
  row.second = rounds.empty() ? from_today(on, look.today()) : yards_words(look, rounds);
  if (const auto lost = evenings.lost.find(on); lost != evenings.lost.end()) {
    row.tag = "LOST", row.mark = Mark::Cross, row.tag_surface = Surface::Muted;
  } else if (!rounds.empty()) {
    const bool late = on < look.today();
    row.tag = engine::counted(rounds.size(), "YARD", "YARDS");
    row.mark = late ? Mark::Warning : Mark::Vapor;
    row.tag_surface = late ? Surface::Warning : Surface::Active;
    bool done = true;
    for (const RoundOn& r : rounds) done = done && r.whole;
    if (done) row.tag = "WALKED", row.mark = Mark::Check, row.tag_surface = Surface::Waiting;
  } else if (engine::evening_free(evenings, on)) {
    row.tag = "FREE", row.mark = Mark::Open;
  } else {
    row.tag = "NOT FREE", row.mark = Mark::Less, row.tag_surface = Surface::Muted;
  }
  return row;
}

LaneBar bar_of(const Look& look, const engine::RoundState& r, std::size_t n, int day) {
  const bool late = !r.walked && r.planned < look.today();
  LaneBar bar{day * 1.0, day + 1.0, std::to_string(n)};
  const bool part = r.walked && !r.whole();
  bar.mark = part ? Mark::Return : r.walked ? Mark::Check : late ? Mark::Warning : Mark::Vapor;
  bar.surface = r.whole() ? Surface::Waiting : late || part ? Surface::Warning : Surface::Active;
  return bar;
}

// One lane for each yard with a course; none: no course at all.
Lanes overview(const Look& look) {
  const engine::Date first = plus_days(look.today(), -kDaysBefore);
  Lanes plot;
  plot.x = day_scale(0, kDaysShown, 7,
                     [&](int day) { return short_day(plus_days(first, day), look.today()); });
  plot.x_title = "evening";
  for (const engine::Yard* yard : engine::yards(look.farm)) {
    const engine::Course* course = course_of(look.farm, yard->id);
    if (course == nullptr) continue;
    Lane lane{yard->name, {}};
    const auto& rounds = look.answers.season.rounds(look.farm, *course, look.today());
    for (std::size_t i = 0; i < rounds.size(); ++i) {
      const int day = days_from(first, rounds[i].planned);
      if (day >= 0 && day < kDaysShown) lane.bars.push_back(bar_of(look, rounds[i], i + 1, day));
    }
    plot.lanes.push_back(lane);
  }
  for (const auto& [on, why] : look.farm.evenings.lost) {
    const int day = days_from(first, on);
    if (day >= 0 && day < kDaysShown)
      plot.moments.push_back({day + 0.5, Mark::Cross, engine::words(why)});
  }
  plot.moments.push_back({kDaysBefore + 0.0, Mark::Clock, "today"});
  std::sort(plot.moments.begin(), plot.moments.end(),
            [](const Moment& a, const Moment& b) { return a.x < b.x; });
  return plot;
}

// As much of the name as stands on one line.
std::string cut_to(const Touch& t, std::string name, float width) {
  if (text_width(t, name, Size::Small) <= width) return name;
  while (name.size() > 1 && text_width(t, name + "\u2026", Size::Small) > width) name.pop_back();
  return name + "\u2026";
}

// Two bytes of one letter are not torn apart.
std::string whole_letters(std::string name) {
  const std::size_t end = name.find("\u2026");
  std::size_t at = end == std::string::npos ? name.size() : end;
  while (at > 0 && at == end && (static_cast<unsigned char>(name[at - 1]) & 0xC0) == 0xC0)
    name.erase(--at, 1);
  return name;
}

void draw_overview(Touch& t, Rect room, Lanes plot, std::size_t most) {
  if (plot.lanes.empty()) return nothing_here(t, room, "No rounds are planned.");
  if (plot.lanes.size() > most) plot.lanes.resize(most);
  for (Lane& lane : plot.lanes) lane.name = whole_letters(cut_to(t, lane.name, room.w * 0.24F));
  room.h = std::min(room.h, lanes_height(t, plot.lanes.size(), true));
  lanes(t, room, plot);
}

float overview_height(const Touch& t, std::size_t with_course, std::size_t most) {
  return lanes_height(t, std::clamp<std::size_t>(with_course, 1, most), true);
}

void open_evening(CoursesView& v, engine::Date on) {
  v.evening = on;
  v.page_of = CoursesPage::Evening;
  v.line_page = 0;
}

// Upright: one evening a row.
void evening_list(Touch& t, const Rect& room, const Look& look, CoursesView& v) {
  const engine::Date first = plus_days(look.today(), -1);
  const auto row_at = [&](std::size_t i) {
    Row row = evening_row(look, plus_days(first, static_cast<int>(i)));
    fit_row(t, row, room.w);
    return row;
  };
  if (const auto tapped = list_rows(t, room, v.calendar_page, kDaysShown, row_at))
    open_evening(v, plus_days(first, static_cast<int>(*tapped)));
}

// Lying: a week a row, from Monday.
void evening_grid(Touch& t, const Rect& room, const Look& look, CoursesView& v) {
  constexpr std::size_t kWeek = 7;
  const std::size_t weeks = std::max<std::size_t>(1, fit_count(room.h, t.least_h(), t.gap()));
  const std::chrono::weekday today{engine::days(look.today())};
  const int monday = -static_cast<int>((today - std::chrono::Monday).count());
  const int first = monday + v.calendar_page * static_cast<int>(weeks * kWeek);
  const auto cells = grid(room, kWeek, weeks, t.gap());
  for (std::size_t i = 0; i < cells.size(); ++i) {
    const engine::Date on = plus_days(look.today(), first + static_cast<int>(i));
    const Row row = evening_row(look, on);
    std::string word = row.tag;
    std::transform(word.begin(), word.end(), word.begin(),
                   [](char c) { return static_cast<char>(std::tolower(c)); });
    const ButtonLook look_of_day{
        .enabled = on >= plus_days(look.today(), -1),
        .surface = row.tag_surface == Surface::Panel ? Surface::Button : row.tag_surface,
        .second = word};
    if (button(t, cells[i], day_words(on).substr(0, 6), look_of_day)) open_evening(v, on);
  }
}

}  // namespace

void calendar_page(Touch& t, Rect room, const Look& look, CoursesView& v) {
  bool back = false;
  head(t, room, "Evenings", "all yards; tap an evening to lose or free it", &back);
  if (back) v.page_of = CoursesPage::List;
  Rect foot = cut_bottom(room, t.least_h(), t.gap());
  if (button(t, cut_right(foot, t.mm(44), t.gap()), "Free evenings", {.second = "of every week"}))
    v.page_of = CoursesPage::Free;
  Lanes plot = overview(look);
  if (t.portrait()) {
    const float high = overview_height(t, plot.lanes.size(), 5);
    draw_overview(t, cut_top(room, high, t.gap()), std::move(plot), 5);
    return evening_list(t, room, look, v);
  }
  constexpr int kPages = 3;
  pager(t, foot, v.calendar_page, kPages);
  evening_grid(t, cut_bottom(room, 3 * t.least_h() + 2 * t.gap(), t.gap()), look, v);
  draw_overview(t, room, std::move(plot), 3);
}

}  // namespace ui
