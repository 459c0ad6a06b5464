#include <fmt/format.h>

#include <algorithm>

#include "ui/screens/yards_parts.h"

namespace ui {

namespace {

using engine::CountMethod;
constexpr int kMites = 1, kBees = 2, kHours = 3;
constexpr int kMostDaysAgo = 60;

bool on_a_board(const CountDraft& d) { return d.method == CountMethod::StickyBoard; }
bool of_bees(const CountDraft& d) {
  return d.method == CountMethod::AlcoholWash || d.method == CountMethod::SugarRoll;
}

engine::Body taken(const Look& look, const CountDraft& d, const engine::Colony& c) {
  engine::CountTaken e{c.id, plus_days(look.today(), -d.days_ago), d.method, d.mites.value_or(0)};
  if (of_bees(d)) e.bees = d.bees;
  if (on_a_board(d)) e.hours = d.hours;
  return e;
}

// A panel of keys while a number is typed; true while it covers the screen.
bool typing_a_number(Touch& t, YardsView& v) {
  double value = 0;
  if (v.typing.field == kMites) {
    if (typed_number(t, v.typing, {"Mites counted", "mites", 0, 5000}, value))
      v.count.mites = static_cast<int>(value);
  } else if (v.typing.field == kBees) {
    const NumberAsk ask{
        "Bees in the sample", "bees", 1, 5000, 0, {{"300 bees", 300}, {"200 bees", 200}}};
    if (typed_number(t, v.typing, ask, value)) v.count.bees = static_cast<int>(value);
  } else if (v.typing.field == kHours) {
    const NumberAsk ask{
        "Hours the board lay", "h", 1, 24 * 31, 0, {{"1 day", 24}, {"2 days", 48}, {"3 days", 72}}};
    if (typed_number(t, v.typing, ask, value)) v.count.hours = static_cast<int>(value);
  } else {
    return false;
  }
  return true;
}

std::string result(const CountDraft& d) {
  if (!d.mites) return "Type how many mites you counted.";
  if (of_bees(d)) return fmt::format("{:.1f} mites on 100 bees", 100.0 * *d.mites / d.bees);
  if (on_a_board(d)) return fmt::format("{:.1f} mites a day", 24.0 * *d.mites / d.hours);
  return engine::counted(static_cast<std::size_t>(*d.mites), "mite", "mites");
}

void method_choice(Touch& t, Rect& room, CountDraft& d) {
  std::vector<std::string> names;
  for (int i = 0; i < 4; ++i) names.emplace_back(engine::words(static_cast<CountMethod>(i)));
  const Rect at = cut_top(room, choice_height(t, names, room.w), t.gap());
  if (const auto m = choice(t, at, names, static_cast<int>(d.method)))
    d.method = static_cast<CountMethod>(*m);
}

void fields(Touch& t, Rect room, const Look& look, YardsView& v) {
  CountDraft& d = v.count;
  room.h = std::min(room.h, t.mm(56));
  const std::vector<Rect> cells = rows(room, 3, t.gap());
  const std::string mites = d.mites ? fmt::format("Mites: {}", *d.mites) : "Mites: tap to type";
  if (button(t, cells[0], mites, {.id = "Mites", .large = true})) start_number(v.typing, kMites);
  if (of_bees(d) && button(t, cells[1], fmt::format("Bees: {}", d.bees),
                           {.second = "half a cup is about 300: common practice", .id = "Bees"}))
    start_number(v.typing, kBees);
  if (on_a_board(d) && button(t, cells[1], fmt::format("Hours: {}", d.hours), {.id = "Hours"}))
    start_number(v.typing, kHours);
  const engine::Date on = plus_days(look.today(), -d.days_ago);
  const std::string day = short_day(on, look.today()) + " (" + from_today(on, look.today()) + ")";
  d.days_ago = std::clamp(
      d.days_ago - stepper(t, cells[2], "Day", day, d.days_ago<kMostDaysAgo, d.days_ago> 0), 0,
      kMostDaysAgo);
}

}  // namespace

Ask count_page(Touch& t, Rect room, const Look& look, YardsView& v, const engine::Colony& c) {
  if (typing_a_number(t, v)) return {};
  bool back = false;
  head(t, room, "Count mites: " + c.name, look.farm.yards.at(c.yard).name, &back);
  const engine::Body body = taken(look, v.count, c);
  const bool fine = v.count.mites && why_not(look, body) == engine::Refusal::None;
  const Act list[] = {{.label = "Save count",
                       .second = fine ? "" : "the mites are missing",
                       .enabled = fine,
                       .surface = Surface::Action,
                       .big = true}};
  const bool save = acts(t, room, list).has_value();
  method_choice(t, room, v.count);
  const std::string lines[] = {result(v.count)};
  told(t, cut_bottom(room, t.mm(12), t.gap()), "", lines);
  fields(t, room, look, v);
  if (back || save) v.page_of = YardsPage::None;
  if (!save) return {};
  return body;
}

}  // namespace ui
