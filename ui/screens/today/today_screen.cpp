// Today: what is due, and the one button that starts the most urgent of it.
#include "ui/screens/today/today_screen.h"

#include <fmt/format.h>

#include <algorithm>
#include <cassert>

#include "ui/screens/answers/answers.h"
#include "ui/screens/base/layout.h"
#include "ui/screens/base/pictured.h"
#include "ui/screens/today/due_items.h"
#include "ui/screens/today/evening_band.h"
#include "ui/screens/today/getting_ready.h"
#include "ui/screens/today/pack_panel.h"
#include "ui/screens/today/today_list.h"
#include "ui/screens/today/trip_page.h"

namespace ui {

namespace {

using Kind = DueItem::Kind;
constexpr float kPicture = 12;  // mm, on the act

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

// For the whole evening when the yard is one of several on the trip, else for its walk alone.
bool draw_pack(Touch& t, const Rect& rect, const Look& look, const DueItem& item) {
  const Tonight& tonight = look.answers.season.tonight(look);
  const auto yards = yards_of(tonight);
  const bool on_trip = std::any_of(yards.begin(), yards.end(),
                                   [&](const engine::TripYard& y) { return y.yard == *item.yard; });
  const bool several = on_trip && yards.size() > 1;
  const std::string title = several ? fmt::format("Pack for tonight, {} yards", yards.size())
                                    : std::string("Pack for this walk");
  return pack_panel(t, rect, look, title,
                    look.answers.season.pack(
                        look, several ? evening_colonies(look, tonight) : to_walk(look, item)));
}

// What is known about the chosen one: for a round what to pack, for a walk its
// hives, else why it is on the list.
Ask details(Touch& t, const Rect& room, const Look& look, const DueItem& item) {
  if (item.kind == Kind::Round) {
    if (draw_pack(t, room, look, item)) return ToPackList{};
    return {};
  }
  if (item.kind == Kind::Walk && item.lines.size() == 1)
    draw_stops(t, room, look.farm.walks.at(*item.walk));
  else
    told(t, room, "", item.lines);
  return {};
}

// The one act of the page, with its picture.
bool draw_act(Touch& t, const Rect& rect, std::string_view label, const std::string& line,
              Icon icon, const ActLook& how = {}) {
  ActLook look = how;
  look.picture_mm = kPicture;
  look.picture = [&](const Rect& box, Colour ink) { draw_icon(t.draw(), icon, box, ink); };
  const float beside = step(t, 3) + t.mm(kPicture) * (t.portrait() ? 1.5F : 1);
  const std::string one = shortened(t, line, rect.w - beside, Role::Body);
  look.line = one;
  return act_button(t, rect, label, look);
}

// "Quarry Gate, leave 20:20".
std::string start_line(const Look& look, const DueItem& item) {
  const Tonight& tonight = look.answers.season.tonight(look);
  if (!tonight.trip) return item.name;
  for (const engine::VisitOnClock& v : tonight.trip->visits)
    if (v.yard == *item.yard) return fmt::format("{}, leave {}", item.name, leave_words(tonight));
  return item.name;
}

struct PageAct {
  const char* label;
  Icon icon;
};
PageAct page_act(const DueItem& item) {
  if (item.kind == Kind::Kit) return {"Open the kit", Icon::Kit};
  if (item.kind == Kind::Label) return {"Open setup", Icon::Setup};
  if (item.kind == Kind::Treat) return {"Plan rounds", Icon::Courses};
  if (item.kind == Kind::Sample) return {"Enter the sample", Icon::Counts};
  if (is_count(item)) return {"Count mites", Icon::Counts};
  return {"Open the yard", Icon::Yards};
}

// The one thing to do about the chosen item.
Ask act_on(Touch& t, const Rect& rect, const Look& look, const DueItem& item) {
  if (item.kind == Kind::Air) {
    const engine::Body off = engine::ColonyUncovered{*item.walk, item.only.front()};
    const bool can = why_not(look, off) == engine::Refusal::None;
    if (draw_act(t, rect, "Cloth is off", item.name, Icon::Cloth, {.enabled = can})) return off;
    return {};
  }
  if (item.walkable()) {
    if (draw_act(t, rect, "Start walk", start_line(look, item), Icon::Walk))
      return ToOpening{*item.yard, item.course, item.only};
    return {};
  }
  if (item.kind == Kind::DeadOut) {
    const engine::Body lost = engine::ColonyLost{item.only.front(), "found dead"};
    const bool can = why_not(look, lost) == engine::Refusal::None;
    const ActLook how{.surface = Surface::Button, .enabled = can, .hold = true};
    if (draw_act(t, rect, "Mark it lost", item.name + ": hold", Icon::Skip, how)) return lost;
    return {};
  }
  const PageAct act = page_act(item);
  if (draw_act(t, rect, act.label, item.name, act.icon)) return page_of(item);
  return {};
}

Rect cut_side(Touch& t, Rect& room) {
  if (t.portrait()) return cut_bottom(room, t.mm(24 + 24) + t.gap(), t.gap());
  return cut_right(room, t.mm(74), t.gap());
}

// Cuts off the foot and what can be done there. A walk under way comes first; opening a colony that
// was left closed is possible beside it.
Ask foot_of(Touch& t, Rect& side, const Look& look, const DueItem* item) {
  const Rect foot = cut_bottom(side, t.mm(t.portrait() ? 24 : 34), t.gap());
  const engine::Walk* walk = engine::walk_under_way(look.farm, look.device);
  if (walk != nullptr) {
    const std::string yard = look.farm.yards.at(walk->yard).name;
    if (draw_act(t, foot, "Back to the walk", "under way in " + yard, Icon::Walk))
      return ToScreen{ScreenName::Walk};
    if (item == nullptr || item->kind != Kind::Air) return {};
    return act_on(t, cut_bottom(side, t.mm(24), t.gap()), look, *item);
  }
  if (item != nullptr) return act_on(t, foot, look, *item);
  if (draw_act(t, foot, "Choose a yard", "walk or count there", Icon::Yards))
    return ToScreen{ScreenName::Yards, true};
  return {};
}

// The day at the left, the clock at the right.
void draw_day(Touch& t, Rect line, const Look& look) {
  const std::string clock = engine::clock_time(look.now);
  say(t, cut_right(line, wide(t, clock, Role::Headline) + t.mm(1), step(t)), clock, Role::Headline,
      {.align = Align::Right});
  say(t, line, day_words(look.today()), Role::Headline);
}

// The evening, as far as it is known; opens the trip.
void draw_evening(Touch& t, Rect& room, const Look& look, const Tonight& tonight, TodayView& view) {
  if (!has_band(look, tonight))
    return window_button(t, cut_top(room, t.least_h(), t.gap()), tonight, view);
  if (evening_band(t, cut_top(room, band_high(t), t.gap()), look, tonight)) view.trip = true;
}

}  // namespace

Ask today_screen(Touch& t, const Rect& whole, const Look& look, TodayView& view) {
  Rect room = whole;
  if (view.trip) return trip_page(t, room, look, view);
  draw_day(t, cut_top(room, high(t, Role::Headline), t.mm(1.5F)), look);
  if (is_first_use(look.farm)) return getting_ready(t, room, look);
  const Tonight& tonight = look.answers.season.tonight(look);
  if (!tonight.settled) t.wake_in(0);
  draw_evening(t, room, look, tonight, view);
  const std::vector<DueItem> items =
      due_items(look, look.answers.season.due(look.farm, look.today()),
                look.answers.season.agenda(look.farm, look.methods, look.today()));
  const std::size_t chosen = chosen_item(items, view.chosen);
  Rect side = cut_side(t, room);
  list_items(t, room, view, items);
  const Ask ask = foot_of(t, side, look, items.empty() ? nullptr : &items[chosen]);
  if (items.empty() || side.h < t.least_h()) return ask;
  const Ask wanted = details(t, side, look, items[chosen]);
  return std::holds_alternative<std::monostate>(wanted) ? ask : wanted;
}

}  // namespace ui
