#include "ui/screens/yards/colony_form.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "ui/screens/answers/answers.h"
#include "ui/screens/base/layout.h"
#include "ui/screens/words/colony_words.h"

namespace ui {

namespace {

constexpr int kName = 1;
constexpr int kMostMetres = 500;  // own bound: a walk, not a map
constexpr int kMostBoxes = 9;

// The name after this one: the number at its end goes up by one ("A9" to "A10").
std::string next_name(const std::string& name) {
  std::size_t at = name.size();
  while (at > 0 && name[at - 1] >= '0' && name[at - 1] <= '9') --at;
  if (at == name.size() || name.size() - at > 6) return {};
  return name.substr(0, at) + std::to_string(std::stol(name.substr(at)) + 1);
}

int metres(int cm) { return static_cast<int>(std::lround(cm / 100.0)); }

std::optional<engine::Spot> spot_of(const ColonyDraft& d) {
  if (!d.placed) return std::nullopt;
  return engine::Spot{d.east_m * 100, d.north_m * 100};
}

engine::Body added(const Look& look, const ColonyDraft& d, const engine::Yard& yard) {
  engine::ColonyAdded e{engine::ColonyId{look.fresh_id}, yard.id, d.name, d.brood_boxes,
                        d.supers_on};
  e.spot = spot_of(d);
  return e;
}

// Only what differs from the colony as it is; a spot that was not touched keeps its centimetres.
engine::Body changed(const ColonyDraft& d, const engine::Colony& c) {
  engine::ColonyChanged e{c.id};
  if (d.name != c.name) e.name = d.name;
  if (d.brood_boxes != c.brood_boxes) e.brood_boxes = d.brood_boxes;
  if (d.supers_on != c.supers_on) e.supers_on = d.supers_on;
  const bool same = c.spot && metres(c.spot->x_cm) == d.east_m && metres(c.spot->y_cm) == d.north_m;
  if (d.placed && !same) e.spot = spot_of(d);
  return e;
}

bool changes_anything(const engine::Body& body) {
  const auto* e = std::get_if<engine::ColonyChanged>(&body);
  return e == nullptr || e->name || e->brood_boxes || e->supers_on || e->spot;
}

void name_taken(const Look& look, const ColonyDraft& d, const engine::Yard& yard,
                std::string& second) {
  for (const engine::Colony* c : engine::colonies_of(look.farm, yard.id))
    if (c->name == d.name && c->id != d.changes) second = "another colony here has this name";
}

std::string side_words(int m, const char* plus, const char* minus, bool placed) {
  if (!placed) return "not placed";
  return m == 0 ? "0 m" : fmt::format("{} m {}", std::abs(m), m > 0 ? plus : minus);
}

void spot_steppers(Touch& t, const Rect& east, const Rect& north, ColonyDraft& d) {
  const int x = stepper(t, east, "East", side_words(d.east_m, "east", "west", d.placed),
                        d.east_m > -kMostMetres, d.east_m < kMostMetres);
  const int y = stepper(t, north, "North", side_words(d.north_m, "north", "south", d.placed),
                        d.north_m > -kMostMetres, d.north_m < kMostMetres);
  if (x == 0 && y == 0) return;
  d.placed = true;
  d.east_m += x;
  d.north_m += y;
}

void form(Touch& t, const Rect& rect, const Look& look, YardsView& v, const engine::Yard& yard) {
  ColonyDraft& d = v.draft;
  Rect room = rect;
  room.h = std::min(room.h, t.mm(104));
  const std::vector<Rect> cells = rows(room, 5, t.gap());
  std::string second = "tap to write it";
  name_taken(look, d, yard, second);
  const ButtonLook name{.second = second, .id = "Name"};
  if (button(t, cells[0], d.name.empty() ? "Name" : "Name: " + d.name, name))
    start_words(v.typing, kName, d.name);
  d.brood_boxes =
      std::clamp(d.brood_boxes + stepper(t, cells[1], "Brood boxes", std::to_string(d.brood_boxes),
                                         d.brood_boxes > 1, d.brood_boxes < kMostBoxes),
                 1, kMostBoxes);
  const std::string options[] = {"No honey supers", "Honey supers on"};
  if (const auto tapped = choice(t, cells[2], options, d.supers_on ? 1 : 0))
    d.supers_on = *tapped == 1;
  spot_steppers(t, cells[3], cells[4], d);
}

}  // namespace

void draft_new_colony(const Look& look, YardsView& v, const engine::Yard& yard) {
  v.draft = {};
  v.page_of = YardsPage::ColonyForm;
  const auto all = engine::colonies_of(look.farm, yard.id);
  if (all.empty()) {
    v.draft.name = "1";
    return;
  }
  const engine::Colony& last = *all.back();
  v.draft.name = next_name(last.name);
  v.draft.brood_boxes = last.brood_boxes;
  v.draft.supers_on = last.supers_on;
  if (!last.spot) return;
  v.draft.placed = true;
  v.draft.east_m = metres(last.spot->x_cm) + 1;
  v.draft.north_m = metres(last.spot->y_cm);
}

void draft_of(const engine::Colony& c, YardsView& v) {
  v.draft = {c.id, c.name, c.brood_boxes, c.supers_on, c.spot.has_value()};
  v.page_of = YardsPage::ColonyForm;
  if (!c.spot) return;
  v.draft.east_m = metres(c.spot->x_cm);
  v.draft.north_m = metres(c.spot->y_cm);
}

Ask colony_form(Touch& t, Rect room, const Look& look, YardsView& v, const engine::Yard& yard) {
  if (v.typing.field == kName) {
    typed_words(t, v.typing, {"Name of the colony"}, v.draft.name);
    return {};
  }
  const engine::Colony* old = v.draft.changes && look.farm.colonies.count(*v.draft.changes) > 0
                                  ? &look.farm.colonies.at(*v.draft.changes)
                                  : nullptr;
  bool back = false;
  head(t, room, old ? "Change " + old->name : "New colony", yard.name, &back);
  const engine::Body body = old ? changed(v.draft, *old) : added(look, v.draft, yard);
  const bool fine = why_not(look, body) == engine::Refusal::None && changes_anything(body);
  std::vector<Act> list = {
      {.label = "Save", .enabled = fine, .surface = Surface::Action, .big = true}};
  if (old)
    list.push_back({.label = "Kind and leaks"});
  else
    list.push_back({.label = "Save and add next", .enabled = fine});
  const auto tapped = acts(t, room, list);
  form(t, room, look, v, yard);
  if (back || tapped == 0U) v.page_of = YardsPage::None;
  if (!tapped) return {};
  if (old && *tapped == 1) {
    v.page_of = YardsPage::Kind;
    return {};
  }
  if (*tapped == 1) {
    v.draft.name = next_name(v.draft.name);
    ++v.draft.east_m;
  }
  return body;
}

}  // namespace ui
