// Today: what is due, and the one button that starts the most urgent of it.
#include "ui/screens/today/today_screen.h"

#include <fmt/format.h>

#include <algorithm>
#include <cassert>

#include "ui/screens/answers/answers.h"
#include "ui/screens/base/layout.h"
#include "ui/screens/today/due_items.h"
#include "ui/screens/today/evening_band.h"
#include "ui/screens/today/getting_ready.h"
#include "ui/screens/today/pack_panel.h"
#include "ui/screens/today/trip_page.h"

namespace ui {

namespace {

using Kind = DueItem::Kind;

bool is_count(const DueItem& item) {
  return item.kind == Kind::Count || item.kind == Kind::PostCount;
}

GoTo page_of(const DueItem& item) {
  if (item.kind == Kind::Kit) return ToScreen{ScreenName::Kit};
  if (item.kind == Kind::Label) return ToLabels{};
  assert(item.yard);
  if (item.kind == Kind::Treat) return ToPlanning{*item.yard};
  if (item.kind == Kind::Sample) return ToCounts{*item.yard, true};
  if (is_count(item)) return ToCounts{*item.yard};
  return ToYard{*item.yard};
}

std::vector<const engine::Colony*> to_walk(const Look& look, const DueItem& item) {
  return engine::colonies_of(look.farm, engine::TripYard{*item.yard, 0, item.only});
}

// For the whole evening when the yard is one of several on the trip, else for its walk alone. There
// is no room for a title upright.
void draw_pack(Touch& t, const Rect& rect, const Look& look, const DueItem& item) {
  const Tonight& tonight = look.answers.season.tonight(look);
  const auto yards = yards_of(tonight);
  const bool on_trip = std::any_of(yards.begin(), yards.end(),
                                   [&](const engine::TripYard& y) { return y.yard == *item.yard; });
  const bool several = on_trip && yards.size() > 1;
  std::string title = several ? fmt::format("Pack for tonight, {} yards", yards.size())
                              : std::string("Pack for this walk");
  if (t.portrait()) title.clear();
  pack_panel(t, rect, title,
             look.answers.season.pack(
                 look, several ? evening_colonies(look, tonight) : to_walk(look, item)));
}

// What is known about the chosen one: its yard, the lines, whether the kit is enough.
void details(Touch& t, Rect room, const Look& look, const DueItem& item) {
  const float high = t.mm(t.portrait() ? 20 : 30);
  if (item.walkable()) draw_pack(t, cut_bottom(room, high, t.gap()), look, item);
  told(t, room, item.name, item.lines);
}

// The one thing to do about the chosen item.
Ask act_on(Touch& t, const Rect& rect, const Look& look, const DueItem& item) {
  if (item.kind == Kind::Air) {
    const engine::Body off = engine::ColonyUncovered{*item.walk, item.only.front()};
    const bool can = why_not(look, off) == engine::Refusal::None;
    if (action_button(t, rect, "Cloth is off", item.name, can)) return off;
    return {};
  }
  if (item.walkable()) {
    if (action_button(t, rect, "Start walk", item.name))
      return ToOpening{*item.yard, item.course, item.only};
    return {};
  }
  if (item.kind == Kind::DeadOut) {
    const engine::Body lost = engine::ColonyLost{item.only.front(), "found dead"};
    const bool can = why_not(look, lost) == engine::Refusal::None;
    if (hold_button(t, rect, "Mark it lost", {.enabled = can, .second = item.name, .large = true}))
      return lost;
    return {};
  }
  const char* label = item.kind == Kind::Kit      ? "Open the kit"
                      : item.kind == Kind::Label  ? "Open setup"
                      : item.kind == Kind::Treat  ? "Plan rounds"
                      : item.kind == Kind::Sample ? "Enter the sample"
                      : is_count(item)            ? "Count mites"
                                                  : "Open the yard";
  if (button(t, rect, label, {.large = true})) return page_of(item);
  return {};
}

Rect cut_side(Touch& t, Rect& room) {
  if (t.portrait()) return cut_bottom(room, std::min(t.mm(76), room.h * 0.5F), t.gap());
  return cut_right(room, t.mm(74), t.gap());
}

std::size_t chosen_of(const std::vector<DueItem>& items, const std::string& id) {
  for (std::size_t i = 0; i < items.size(); ++i) {
    const std::string& own = items[i].row.id.empty() ? items[i].row.title : items[i].row.id;
    if (own == id) return i;
  }
  return 0;
}

void list_items(Touch& t, const Rect& room, TodayView& view, const std::vector<DueItem>& items,
                std::size_t chosen) {
  if (items.empty()) {
    nothing_here(t, room, "Nothing is due today.");
    return;
  }
  std::vector<Row> list;
  for (std::size_t i = 0; i < items.size(); ++i) {
    list.push_back(items[i].row);
    list.back().chosen = i == chosen;
    fit_row(t, list.back(), room.w);
  }
  const auto tapped = list_rows(t, room, view.page, list);
  if (!tapped) return;
  const Row& row = items[*tapped].row;
  view.chosen = row.id.empty() ? row.title : row.id;
}

// Cuts off the foot and what can be done there. A walk under way comes first; opening a colony that
// was left closed is possible beside it.
Ask foot_of(Touch& t, Rect& side, const Look& look, const DueItem* item) {
  const Rect foot = cut_bottom(side, t.mm(t.portrait() ? 26 : 34), t.gap());
  const engine::Walk* walk = engine::walk_under_way(look.farm, look.device);
  if (walk != nullptr) {
    const std::string yard = look.farm.yards.at(walk->yard).name;
    if (action_button(t, foot, "Back to the walk", "under way in " + yard))
      return ToScreen{ScreenName::Walk};
    if (item == nullptr || item->kind != Kind::Air) return {};
    return act_on(t, cut_bottom(side, t.mm(22), t.gap()), look, *item);
  }
  if (item != nullptr) return act_on(t, foot, look, *item);
  if (button(t, foot, "Choose a yard", {.large = true})) return ToScreen{ScreenName::Yards, true};
  return {};
}

}  // namespace

Ask today_screen(Touch& t, const Rect& whole, const Look& look, TodayView& view) {
  Rect room = whole;
  if (view.trip) return trip_page(t, room, look, view);
  const std::string day = day_words(look.today()) + ", " + engine::clock_time(look.now);
  const Rect top = room;
  head(t, room, "Today", day);
  if (is_first_use(look.farm)) return getting_ready(t, room, look);
  Rect beside{top.x, top.y, top.w, room.y - top.y - t.gap()};
  const Tonight& tonight = look.answers.season.tonight(look);
  if (!tonight.settled) t.wake_in(0);
  window_button(t, cut_right(beside, t.mm(74)), tonight, view);
  const std::vector<DueItem> items =
      due_items(look, look.answers.season.due(look.farm, look.today()),
                look.answers.season.agenda(look.farm, look.methods, look.today()));
  const std::size_t chosen = chosen_of(items, view.chosen);
  Rect side = cut_side(t, room);
  if (!t.portrait() && has_band(look, tonight))
    evening_band(t, cut_top(room, t.mm(27), t.gap()), look, tonight);
  list_items(t, room, view, items, chosen);
  const Ask ask = foot_of(t, side, look, items.empty() ? nullptr : &items[chosen]);
  if (!items.empty()) details(t, side, look, items[chosen]);
  return ask;
}

}  // namespace ui
