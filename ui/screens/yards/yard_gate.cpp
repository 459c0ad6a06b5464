// Where the keeper comes into a yard, among the colonies' own places: the walk begins and ends
// there.
#include "ui/screens/yards/yard_gate.h"

#include <fmt/format.h>

#include <cmath>
#include <cstdlib>

#include "engine/words/lookup.h"
#include "ui/screens/answers/answers.h"
#include "ui/screens/base/layout.h"
#include "ui/screens/words/colony_words.h"

namespace ui {

namespace {

enum Field { kEast = 20, kNorth };
constexpr double kMostMetresToGate = 500;  // own bound: a walk, not a map

std::string metres(int cm, const char* plus, const char* minus) {
  if (cm == 0) return "0 m";
  return fmt::format("{} m {}", std::abs(cm) / 100.0, cm > 0 ? plus : minus);
}

// What the metres count from: no yard has a post at its zero, but a colony stands near it.
std::string beside(const Look& look, const engine::Yard& yard) {
  for (const engine::Colony* c : engine::colonies_of(look.farm, yard.id))
    if (c->spot)
      return fmt::format("{} stands at {}, {}", c->name, metres(c->spot->x_cm, "east", "west"),
                         metres(c->spot->y_cm, "north", "south"));
  return "the first colony stands at 0 m, 0 m";
}

void type_metres(Touch& t, YardsView& v) {
  const bool east = v.typing.field == kEast;
  const NumberAsk ask{east ? "Metres east or west" : "Metres north or south", "m", 0,
                      kMostMetresToGate, 1};
  double value = 0;
  if (!typed_number(t, v.typing, ask, value)) return;
  int& to = east ? v.gate->x_cm : v.gate->y_cm;
  const int size = static_cast<int>(std::lround(value * 100));
  to = to < 0 ? -size : size;
}

void draw_rows(Touch& t, const Rect& room, const Look& look, YardsView& v,
               const engine::Yard& yard) {
  engine::Spot& g = *v.gate;
  Row rows[] = {field("East or west", metres(g.x_cm, "east", "west"), beside(look, yard)),
                field("Which side", g.x_cm < 0 ? "west" : "east", "tap to change"),
                field("North or south", metres(g.y_cm, "north", "south")),
                field("Which side", g.y_cm < 0 ? "south" : "north", "tap to change")};
  rows[1].id = "side east", rows[3].id = "side north";
  rows[1].enabled = g.x_cm != 0, rows[3].enabled = g.y_cm != 0;
  const auto tapped = list_rows(t, room, v.panel_page, rows);
  if (tapped == 0U) start_number(v.typing, kEast);
  if (tapped == 1U) g.x_cm = -g.x_cm;
  if (tapped == 2U) start_number(v.typing, kNorth);
  if (tapped == 3U) g.y_cm = -g.y_cm;
}

}  // namespace

Ask gate_page(Touch& t, Rect room, const Look& look, YardsView& v, const engine::Yard& yard) {
  if (!v.gate) v.gate = yard.gate.value_or(engine::Spot{});
  if (v.typing.field == kEast || v.typing.field == kNorth) return type_metres(t, v), Ask{};
  bool back = false;
  head(t, room, "Way in to " + yard.name, "the walk is planned from there and back", &back);
  engine::YardChanged e{yard.id};
  e.gate = *v.gate;
  const bool changed = yard.gate != v.gate;
  const Act list[] = {{.label = "Save way in",
                       .second = changed ? "" : "nothing is changed",
                       .enabled = changed && why_not(look, e) == engine::Refusal::None,
                       .surface = Surface::Action,
                       .big = true}};
  const bool save = acts(t, room, list).has_value();
  draw_rows(t, room, look, v, yard);
  if (back || save) {
    v.gate.reset();
    v.page_of = YardsPage::YardMore;
  }
  return save ? Ask{engine::Body{e}} : Ask{};
}

}  // namespace ui
