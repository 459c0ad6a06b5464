#include "ui/screens/counts/count_entry.h"

#include <fmt/format.h>

#include <algorithm>

#include "engine/season/counts.h"
#include "ui/screens/answers/answers.h"
#include "ui/screens/base/layout.h"
#include "ui/screens/words/count_words.h"

namespace ui {

namespace {

using engine::CountMethod;
constexpr int kMites = 1, kBees = 2, kHours = 3;
constexpr int kMostDaysAgo = 60;

bool on_a_board(const CountDraft& d) { return d.method == CountMethod::StickyBoard; }

engine::Body taken(const Look& look, const CountDraft& d, const engine::Colony& c) {
  engine::CountTaken e{c.id, plus_days(look.today(), -d.days_ago), d.method, d.mites.value_or(0)};
  if (of_bees(d.method)) e.bees = d.bees;
  if (on_a_board(d)) e.hours = d.hours;
  return e;
}

void type_mites(Touch& t, CountDraft& d, Typing& typing, const std::string& colony) {
  double value = 0;
  if (!typed_number(t, typing, {"Mites counted: " + colony, "mites", 0, 5000}, value)) return;
  d.mites = static_cast<int>(value);
  if (d.lead && of_bees(d.method)) start_number(typing, kBees);
  if (d.lead && on_a_board(d)) start_number(typing, kHours);
  d.lead = false;
}

// A panel of keys while a number is typed; true while it covers the screen.
bool typing_a_number(Touch& t, CountDraft& d, Typing& typing, const std::string& colony) {
  double value = 0;
  if (typing.field == kMites) {
    type_mites(t, d, typing, colony);
  } else if (typing.field == kBees) {
    const NumberAsk ask{
        "Bees in the sample", "bees", 1, 5000, 0, {{"300 bees", 300}, {"200 bees", 200}}};
    if (typed_number(t, typing, ask, value)) d.bees = static_cast<int>(value);
  } else if (typing.field == kHours) {
    const NumberAsk ask{
        "Hours the board lay", "h", 1, 24 * 31, 0, {{"1 day", 24}, {"2 days", 48}, {"3 days", 72}}};
    if (typed_number(t, typing, ask, value)) d.hours = static_cast<int>(value);
  } else {
    return false;
  }
  return true;
}

void method_choice(Touch& t, Rect& room, CountDraft& d) {
  std::vector<std::string> names;
  for (int i = 0; i < 4; ++i) names.emplace_back(engine::words(static_cast<CountMethod>(i)));
  const Rect at = cut_top(room, choice_height(t, names, room.w), t.gap());
  if (const auto m = choice(t, at, names, static_cast<int>(d.method)))
    d.method = static_cast<CountMethod>(*m);
}

void fields(Touch& t, Rect room, const Look& look, CountDraft& d, Typing& typing) {
  room.h = std::min(room.h, t.mm(56));
  const std::vector<Rect> cells = rows(room, 3, t.gap());
  const std::string mites = d.mites ? fmt::format("Mites: {}", *d.mites) : "Mites: tap to type";
  if (button(t, cells[0], mites, {.id = "Mites", .large = true})) start_number(typing, kMites);
  if (of_bees(d.method) &&
      button(t, cells[1], fmt::format("Bees: {}", d.bees),
             {.second = "half a cup is about 300: common practice", .id = "Bees"}))
    start_number(typing, kBees);
  if (on_a_board(d) && button(t, cells[1], fmt::format("Hours: {}", d.hours), {.id = "Hours"}))
    start_number(typing, kHours);
  const engine::Date on = plus_days(look.today(), -d.days_ago);
  const std::string day = short_day(on, look.today()) + " (" + from_today(on, look.today()) + ")";
  d.days_ago = std::clamp(
      d.days_ago - stepper(t, cells[2], "Day", day, d.days_ago<kMostDaysAgo, d.days_ago> 0), 0,
      kMostDaysAgo);
}

}  // namespace

void start_count(CountDraft& draft, Typing& typing) {
  draft = {};
  draft.lead = true;
  start_number(typing, kMites);
}

Ask count_entry(Touch& t, Rect room, const Look& look, CountDraft& d, Typing& typing,
                const engine::Colony& c, bool& back) {
  if (typing_a_number(t, d, typing, c.name)) return {};
  head(t, room, "Count mites: " + c.name, look.farm.yards.at(c.yard).name, &back);
  const engine::Body body = taken(look, d, c);
  const bool fine = d.mites && why_not(look, body) == engine::Refusal::None;
  Rect side =
      t.portrait() ? cut_bottom(room, t.mm(66), t.gap()) : cut_right(room, t.mm(62), t.gap());
  const Rect at =
      t.portrait() ? cut_bottom(side, t.mm(17), t.gap()) : cut_top(side, t.mm(22), t.gap());
  const bool save = button(t, at, "Save count",
                           {.enabled = fine,
                            .surface = Surface::Action,
                            .second = fine ? "" : "the mites are missing",
                            .large = true});
  told(t, side, "", draft_lines(look, d, c));
  method_choice(t, room, d);
  fields(t, room, look, d, typing);
  if (!save) return {};
  return body;
}

}  // namespace ui
