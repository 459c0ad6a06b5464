#include "ui/screens/walk/now/walk_yard.h"

#include <algorithm>

#include "engine/language/tr.h"
#include "engine/walk/come_back.h"
#include "engine/walk/timers.h"
#include "engine/words/lookup.h"
#include "ui/screens/base/roles.h"
#include "ui/screens/walk/plan/walk_words.h"
#include "ui/touch/face.h"
#include "ui/touch/paint.h"

namespace ui {

using engine::tr;
namespace {

// Where one hive stands on the glass.
struct Stand {
  Rect cell, hive;
};

const engine::Timer* timer_of(const std::vector<engine::Timer>& timers, engine::ColonyId colony) {
  for (const engine::Timer& t : timers)
    if (t.colony == colony) return &t;
  return nullptr;
}

void show_time(const engine::Timer* timer, HiveDrawing& hive) {
  if (timer == nullptr) return;
  hive.due = timer->due() || !timer->sure;
  hive.rests = timer->resting;
  if (timer->goal > engine::Ms{0})
    hive.left = static_cast<float>(timer->left().count()) / static_cast<float>(timer->goal.count());
}

// The next one is told apart, unless its clock is.
HiveState state_of(const engine::Walk& walk, const engine::Stop& stop, bool next) {
  const HiveState state = hive_state(walk, stop);
  const bool runs = state == HiveState::Vapor || state == HiveState::Covered;
  return next && !runs ? HiveState::Next : state;
}

// A hive reaches so far above its target, into the gap to the next one.
float lift_of(const Touch& t) { return t.gap() * 0.8F; }

// The name under the hive, in the role that holds all of the names.
Stand stand_in(const Touch& t, const Rect& cell, float name_high) {
  Rect room{cell.x, cell.y - lift_of(t), cell.w, cell.h + lift_of(t)};
  cut_bottom(room, name_high, t.mm(0.2F));
  return {cell, room};
}

// What was noted at the hive, beside it.
void draw_notes(Touch& t, const Rect& cell, const engine::Stop& stop, Surface ground) {
  const bool heavy = stop.flight == engine::Flight::Heavy;
  const Icon note = !stop.mishaps.empty() ? Icon::Problem : heavy ? Icon::Flying : Icon::None;
  if (note == Icon::None) return;
  const float side = t.mm(4.5F);
  draw_icon(t.draw(), note, {cell.right() - side - t.mm(0.4F), cell.y + t.mm(0.4F), side, side},
            t.theme()[ground].ink);
}

Role name_role(const Touch& t, const std::vector<Tile>& tiles, float width) {
  const bool fit = std::all_of(tiles.begin(), tiles.end(), [&](const Tile& tile) {
    return wide(t, tile.label, Role::Body) <= width;
  });
  return fit ? Role::Body : Role::Small;
}

void draw_name(Touch& t, const Rect& cell, float name_high, const std::string& name, Role role,
               bool quiet) {
  const Rect under{cell.x, cell.bottom() - name_high, cell.w, name_high};
  text(t, under, name,
       {.size = size_of(role), .align = Align::Center, .quiet = quiet, .least = Size::Small});
}

struct Picture {
  Touch& t;
  const Look& look;
  const engine::Walk& walk;
  UnderWay& view;
  std::optional<engine::ColonyId> current, then;
};

void choose(UnderWay& view, engine::ColonyId colony) {
  if (view.chosen == colony)
    view.chosen.reset();
  else
    view.chosen = colony;
}

void draw_stand(const Picture& p, const Stand& stand, const Tile& tile, const engine::Stop& stop,
                float name_high, Role role, bool target) {
  Touch& t = p.t;
  Surface ground = Surface::Page;
  if (target) {
    const Hit hit = t.target(tile.label, stand.cell);
    if (hit.pressed) t.fill(stand.cell, ground = Surface::Pressed, t.mm(0.3F));
    if (hit.tapped) choose(p.view, stop.colony);
  }
  draw_hive(t, stand.hive, hive_of(p.look, p.walk, stop, p.current == stop.colony));
  draw_notes(t, stand.cell, stop, ground);
  const bool over = stop.phase == engine::Phase::Done || stop.phase == engine::Phase::PassedOver;
  draw_name(t, stand.cell, name_high, tile.label, role, over);
}

void draw_way_on(const Picture& p, const std::vector<std::optional<Rect>>& cells) {
  const auto cell_of = [&](std::optional<engine::ColonyId> colony) -> const Rect* {
    for (std::size_t i = 0; i < p.walk.stops.size(); ++i)
      if (colony == p.walk.stops[i].colony && cells[i]) return &*cells[i];
    return nullptr;
  };
  const Rect *from = cell_of(p.current), *to = cell_of(p.then);
  if (from == nullptr || to == nullptr || from == to) return;
  const InkPen pen{p.t.draw(), p.t.theme()[Surface::Action].ground, p.t.mm(0.9F)};
  draw_way(pen, *from, *to);
}

// Every hive in its own cell, each a target.
void draw_cells(const Picture& p, const std::vector<Tile>& tiles, const MapPage& page) {
  float least = p.t.screen().w;
  for (const Spot& s : page.spots) least = std::min(least, s.rect.w);
  const Role role = name_role(p.t, tiles, least);
  const float one = high(p.t, role);
  bool two = false;  // a long name takes two lines
  for (const Tile& tile : tiles) two = two || wide(p.t, tile.label, role) > least;
  std::vector<std::optional<Rect>> cells(tiles.size());
  for (const Spot& s : page.spots) cells[s.tile] = s.rect;
  for (const Spot& s : page.spots)
    draw_stand(p, stand_in(p.t, s.rect, two ? 2 * one : one), tiles[s.tile], p.walk.stops[s.tile],
               two ? 2 * one : one, role, true);
  draw_way_on(p, cells);
}

// Too many for a glove: small hives in rows, and the map behind the whole.
void draw_crowd(const Picture& p, const Rect& rect, const std::vector<Tile>& tiles) {
  Touch& t = p.t;
  const Hit hit = t.target(tr("Map"), rect);
  const Surface ground = face_of(hit, true, Surface::Button);
  t.fill(rect, ground, t.mm(0.3F));
  if (hit.tapped) p.view.panel = WalkPanel::Map;
  const Rect room = inset(rect, t.mm(1));
  const std::size_t n = tiles.size();
  const auto lines = [n](std::size_t cols) { return (n + cols - 1) / cols; };
  std::size_t cols = 1;  // as few as leave each hive a square
  while (cols<n&& static_cast<float>(lines(cols)) * room.w> room.h * static_cast<float>(cols))
    ++cols;
  const std::vector<Rect> cells = grid(room, cols, lines(cols), t.mm(0.5F));
  for (std::size_t i = 0; i < n; ++i)
    draw_hive(t, cells[i],
              hive_of(p.look, p.walk, p.walk.stops[i], p.current == p.walk.stops[i].colony));
}

// The highest targets with which the hives stand where they stand with the least ones.
MapPlan largest_plan(const Touch& t, const Rect& room, const std::vector<Tile>& tiles) {
  const MapPlan least = plan_map(room, tiles, t.least_w(), t.least_h(), t.gap());
  for (const float times : {2.0F, 1.8F, 1.6F, 1.4F, 1.3F, 1.2F, 1.1F}) {
    MapPlan plan = plan_map(room, tiles, t.least_w(), t.least_h() * times, t.gap());
    if (plan.pages.size() == 1 && plan.true_places == least.true_places) return plan;
  }
  return least;
}

}  // namespace

std::string cloth_number(const Look& look, engine::KitId cloth) {
  const std::string name = engine::kit_called(look.farm, cloth);
  const std::size_t space = name.rfind(' ');
  return space == std::string::npos ? name : name.substr(space + 1);
}

HiveDrawing hive_of(const Look& look, const engine::Walk& walk, const engine::Stop& stop,
                    bool next) {
  HiveDrawing hive;
  if (const auto at = look.farm.colonies.find(stop.colony); at != look.farm.colonies.end()) {
    hive.boxes = at->second.brood_boxes;
    hive.supers = at->second.supers_on ? 1 : 0;
  }
  hive.state = state_of(walk, stop, next);
  if (hive.state == HiveState::Vapor)
    show_time(timer_of(engine::dwells(walk, look.now), stop.colony), hive);
  if (hive.state != HiveState::Covered) return hive;
  show_time(timer_of(engine::seals(walk, look.now), stop.colony), hive);
  if (const auto& cloth = stop.treatments.back().cloth) hive.cloth = cloth_number(look, *cloth);
  return hive;
}

bool place_hives(const Look& look, const engine::Walk& walk, bool portrait,
                 std::vector<Tile>& tiles) {
  const auto spot_of = [&](const engine::Stop& s) { return look.farm.colonies.at(s.colony).spot; };
  const bool all = std::all_of(walk.stops.begin(), walk.stops.end(),
                               [&](const engine::Stop& s) { return spot_of(s).has_value(); });
  const std::size_t cols = portrait ? 4 : 5;
  for (std::size_t i = 0; i < tiles.size(); ++i) {
    const auto spot = spot_of(walk.stops[i]);
    tiles[i].x = all ? static_cast<float>(spot->x_cm) : static_cast<float>(i % cols);
    tiles[i].y = all ? static_cast<float>(-spot->y_cm) : static_cast<float>(i / cols);
  }
  return all;
}

void draw_yard(Touch& t, const Rect& rect, const Look& look, const engine::Walk& walk,
               UnderWay& view, std::optional<engine::ColonyId> current,
               std::optional<engine::ColonyId> then) {
  std::vector<Tile> tiles;
  for (const engine::Stop& s : walk.stops) tiles.push_back({.label = called(look, s.colony)});
  place_hives(look, walk, t.portrait(), tiles);
  Rect room = rect;
  cut_top(room, lift_of(t));
  const MapPlan plan = largest_plan(t, room, tiles);
  const Picture picture{t, look, walk, view, current, then};
  if (plan.pages.size() == 1)
    draw_cells(picture, tiles, plan.pages.front());
  else
    draw_crowd(picture, rect, tiles);
}

}  // namespace ui
