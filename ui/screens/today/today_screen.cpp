// Today: what is due, and the one button that starts the most urgent of it.
#include <fmt/format.h>

#include <algorithm>

#include "ui/screens/base/layout.h"
#include "ui/screens/today/due_items.h"
#include "ui/screens/today/today_pages.h"

namespace ui {

namespace {

using Kind = DueItem::Kind;

void start_walk(const DueItem& item, Views& views) {
  views.walk = {};
  views.walk.yard = item.yard;
  views.walk.course = item.course;
  views.walk.only = item.only;
  views.screen = ScreenName::Walk;
}

bool is_count(const DueItem& item) {
  return item.kind == Kind::Count || item.kind == Kind::PostCount;
}

void open_page(const DueItem& item, Views& views) {
  if (item.kind == Kind::Kit) {
    views.screen = ScreenName::Kit;
  } else if (item.kind == Kind::Label) {
    views.setup = {};
    views.setup.section = SetupSection::Label;
    views.screen = ScreenName::Setup;
  } else if (is_count(item)) {
    views.counts = {};
    views.counts.yard = item.yard;
    views.screen = ScreenName::Counts;
  } else {
    views.yards = {};
    views.yards.yard = item.yard;
    views.screen = ScreenName::Yards;
  }
}

void empty_farm(Touch& t, Rect room, Views& views) {
  const Act list[] = {{.label = "Add a yard", .surface = Surface::Action, .big = true}};
  if (acts(t, room, list)) {
    views.yards = {};
    views.yards.page_of = YardsPage::AddYard;
    start_words(views.yards.typing, 0);
    views.screen = ScreenName::Yards;
  }
  nothing_here(t, room,
               "No yards yet.\n\nRead your spreadsheet with\nduskwalk read FILE.csv\n(yards first, "
               "then colonies), or add a yard by hand.");
}

std::vector<const engine::Colony*> to_walk(const Look& look, const DueItem& item) {
  return engine::colonies_of(look.farm, engine::TripYard{*item.yard, 0, item.only});
}

// For the whole evening when the yard is one of several on the trip, else for its walk alone. There
// is no room for a title upright.
void draw_pack(Touch& t, const Rect& rect, const Look& look, Views& views, const DueItem& item) {
  const Tonight& tonight = views.season.tonight(look);
  const auto yards = yards_of(tonight);
  const bool on_trip = std::any_of(yards.begin(), yards.end(),
                                   [&](const engine::TripYard& y) { return y.yard == *item.yard; });
  const bool several = on_trip && yards.size() > 1;
  std::string title = several ? fmt::format("Pack for tonight, {} yards", yards.size())
                              : std::string("Pack for this walk");
  if (t.portrait()) title.clear();
  pack_panel(
      t, rect, title,
      views.season.pack(look, several ? evening_colonies(look, tonight) : to_walk(look, item)));
}

// What is known about the chosen one: its yard, the lines, whether the kit is enough.
void details(Touch& t, Rect room, const Look& look, Views& views, const DueItem& item) {
  const float high = t.mm(t.portrait() ? 20 : 30);
  if (item.walkable()) draw_pack(t, cut_bottom(room, high, t.gap()), look, views, item);
  told(t, room, item.name, item.lines);
}

// The one thing to do about the chosen item.
Ask act_on(Touch& t, const Rect& rect, const Look& look, const DueItem& item, Views& views) {
  if (item.kind == Kind::Air) {
    const engine::Body off = engine::ColonyUncovered{*item.walk, item.only.front()};
    const bool can = why_not(look, off) == engine::Refusal::None;
    if (action_button(t, rect, "Cloth is off", item.name, can)) return off;
    return {};
  }
  if (item.walkable()) {
    if (action_button(t, rect, "Start walk", item.name)) start_walk(item, views);
    return {};
  }
  const char* label = item.kind == Kind::Kit     ? "Open the kit"
                      : item.kind == Kind::Label ? "Open setup"
                      : is_count(item)           ? "Count mites"
                                                 : "Open the yard";
  if (button(t, rect, label, {.large = true})) open_page(item, views);
  return {};
}

void back_to_walk(Touch& t, const Rect& rect, const engine::Walk& walk, const Look& look,
                  Views& views) {
  const std::string yard = look.farm.yards.at(walk.yard).name;
  if (action_button(t, rect, "Back to the walk", "under way in " + yard)) {
    views.screen = ScreenName::Walk;
  }
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
Ask foot_of(Touch& t, Rect& side, const Look& look, const DueItem* item, Views& views) {
  const Rect foot = cut_bottom(side, t.mm(t.portrait() ? 26 : 34), t.gap());
  const engine::Walk* walk = engine::walk_under_way(look.farm, look.device);
  if (walk != nullptr) {
    back_to_walk(t, foot, *walk, look, views);
    if (item == nullptr || item->kind != Kind::Air) return {};
    return act_on(t, cut_bottom(side, t.mm(22), t.gap()), look, *item, views);
  }
  if (item != nullptr) return act_on(t, foot, look, *item, views);
  if (button(t, foot, "Choose a yard", {.large = true})) {
    views.yards = {};
    views.screen = ScreenName::Yards;
  }
  return {};
}

}  // namespace

Ask today_screen(Touch& t, const Rect& whole, const Look& look, Views& views) {
  Rect room = whole;
  if (views.today.trip) return trip_page(t, room, look, views);
  const std::string day = day_words(look.today()) + ", " + engine::clock_time(look.now);
  const Rect top = room;
  head(t, room, "Today", day);
  if (engine::yards(look.farm).empty()) {
    empty_farm(t, room, views);
    return {};
  }
  Rect beside{top.x, top.y, top.w, room.y - top.y - t.gap()};
  const Tonight& tonight = views.season.tonight(look);
  if (!tonight.settled) t.wake_in(0);
  window_button(t, cut_right(beside, t.mm(74)), tonight, views.today);
  const std::vector<DueItem> items = due_items(look, views.season.due(look.farm, look.today()));
  const std::size_t chosen = chosen_of(items, views.today.chosen);
  Rect side = cut_side(t, room);
  list_items(t, room, views.today, items, chosen);
  const Ask ask = foot_of(t, side, look, items.empty() ? nullptr : &items[chosen], views);
  if (!items.empty()) details(t, side, look, views, items[chosen]);
  return ask;
}

}  // namespace ui
