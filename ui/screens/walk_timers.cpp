#include "ui/screens/walk_timers.h"

#include <fmt/format.h>

#include <algorithm>

#include "engine/register/lookup.h"
#include "engine/register/words.h"
#include "engine/walk/timers.h"
#include "ui/screens/walk_words.h"

namespace ui {
namespace {

constexpr std::chrono::seconds kDwellGrace{10};  // due, then over and flashing: own choice

struct TimerTile {
  std::string colony;
  std::string what;   // "cloth 2", "vaporizer 1"
  std::string label;  // of the target
  engine::Timer timer;
  Surface surface = Surface::Waiting;
  bool chosen = false;
};

std::string time_words(const engine::Timer& timer) {
  if (!timer.sure) return "check";
  if (timer.due()) return clock_text(std::chrono::floor<std::chrono::seconds>(timer.left()));
  return to_go(timer.left());
}

Surface surface_of(const TimerTile& tile, const Hit& hit) {
  if (hit.pressed) return Surface::Pressed;
  return tile.timer.due() || !tile.timer.sure ? Surface::Warning : tile.surface;
}

// Name and time side by side if both can be large, else the name above; then what it is stands
// there only if there is room (the target's own name says it).
void draw_inside(Touch& t, Rect room, const TimerTile& tile) {
  const std::string time = time_words(tile.timer);
  const float name = text_width(t, tile.colony, Size::Large) + t.mm(2);
  const float high = room.h - line_height(t, Size::Small);
  const auto fits = [&](Size size) {
    return name + text_width(t, time, size) + 1 <= room.w && line_height(t, size) <= high + 2;
  };
  if (fits(Size::Large)) {
    const Size size = fits(Size::Huge) ? Size::Huge : Size::Large;
    text(t, cut_bottom(room, line_height(t, Size::Small)), tile.what,
         {.size = Size::Small, .quiet = true});
    text(t, cut_right(room, text_width(t, time, size) + 1), time,
         {.size = size, .align = Align::Right});
    text(t, room, tile.colony, {.size = Size::Large});
    return;
  }
  Rect under = cut_bottom(room, line_height(t, Size::Body));
  text(t, cut_right(under, text_width(t, time, Size::Body) + 1, t.mm(1)), time,
       {.align = Align::Right});
  if (text_width(t, tile.what, Size::Small) < under.w)
    text(t, under, tile.what, {.size = Size::Small, .quiet = true});
  text(t, room, tile.colony, {.size = Size::Body});
}

// A second tap lets go again.
void choose(WalkView& view, engine::ColonyId colony) {
  if (view.chosen == colony)
    view.chosen.reset();
  else
    view.chosen = colony;
}

void draw_tile_face(Touch& t, const Rect& rect, const TimerTile& tile, const Hit& hit) {
  t.fill(rect, surface_of(tile, hit), t.mm(tile.chosen ? 1.2F : 0.4F));
  draw_inside(t, inset(rect, t.mm(2.2F), t.mm(1.4F)), tile);
}

bool draw_tile(Touch& t, const Rect& rect, const TimerTile& tile) {
  const Hit hit = t.target(tile.label, rect);
  draw_tile_face(t, rect, tile, hit);
  return hit.tapped;
}

void draw_rest(Touch& t, const Rect& rect, std::string_view words) {
  t.fill(rect, Surface::Panel, t.mm(0.3F));
  text(t, inset(rect, t.mm(2)), words, {.align = Align::Center, .quiet = true});
}

std::vector<Rect> cells_for(const Touch& t, const Rect& rect, std::size_t n) {
  const std::size_t lines = std::max<std::size_t>(1, fit_count(rect.h, t.least_h(), t.gap()));
  const std::size_t cols = n <= lines ? 1 : 2;
  const std::size_t used = std::clamp<std::size_t>((n + cols - 1) / cols, 1, lines);
  return grid(rect, cols, used, t.gap());
}

void draw_one_dwell(Touch& t, const Rect& rect, const Look& look, const engine::Walk& walk) {
  const auto dwells = engine::dwells(walk, look.now);
  if (dwells.empty()) return draw_rest(t, rect, "No vapor now");
  const engine::Timer& d = dwells.front();
  const std::string label = fmt::format("Vapor in {}", called(look, d.colony));
  const auto left = d.due() ? std::chrono::floor<std::chrono::seconds>(d.left())
                            : std::chrono::ceil<std::chrono::seconds>(d.left());
  countdown(t, rect,
            {.label = label,
             .left = left,
             .total = std::chrono::duration_cast<std::chrono::seconds>(d.goal),
             .grace = kDwellGrace});
}

TimerTile dwell_tile(const Look& look, const engine::Walk& walk, const WalkView& view,
                     const engine::Timer& timer) {
  const engine::Stop* stop = engine::find_stop(walk, timer.colony);
  TimerTile tile{.colony = called(look, timer.colony), .timer = timer};
  tile.what = engine::kit_called(look.farm, stop->treatments.back().vaporizer);
  tile.label = "Vapor in " + tile.colony;
  tile.surface = Surface::Active;
  tile.chosen = view.chosen == timer.colony;
  return tile;
}

struct Shown {
  std::vector<engine::ClothPlace> places;
  std::size_t hidden = 0;
};

// As many as there are cells; those that lie before those that are free. Places stay as they are
// while all fit, so that a cloth is always found in the same spot.
Shown shown_cloths(const Look& look, const engine::Walk& walk, std::size_t cells) {
  Shown s{engine::cloth_places(walk, look.now), 0};
  if (s.places.size() <= cells) return s;
  std::stable_sort(s.places.begin(), s.places.end(), [](const auto& a, const auto& b) {
    if (!a.seal || !b.seal) return a.seal.has_value() && !b.seal.has_value();
    return a.seal->elapsed > b.seal->elapsed;
  });
  s.hidden = s.places.size() - (cells - 1);
  s.places.resize(cells - 1);
  return s;
}

void draw_cloth(Touch& t, const Rect& rect, const Look& look, const engine::ClothPlace& place,
                WalkView& view) {
  const std::string cloth = engine::kit_called(look.farm, place.cloth);
  if (!place.seal) return draw_rest(t, rect, cloth + " is free");
  TimerTile tile{.colony = called(look, place.seal->colony), .what = cloth, .timer = *place.seal};
  tile.label = fmt::format("{} on {}", cloth, tile.colony);
  tile.chosen = view.chosen == place.seal->colony;
  if (draw_tile(t, rect, tile)) choose(view, place.seal->colony);
}

}  // namespace

void draw_dwells(Touch& t, const Rect& rect, const Look& look, const engine::Walk& walk,
                 WalkView& view) {
  const bool one = walk.vaporizers.size() < 2;
  if (one && rect.h >= t.mm(21.5F)) return draw_one_dwell(t, rect, look, walk);
  const auto dwells = engine::dwells(walk, look.now);
  if (dwells.empty()) return draw_rest(t, rect, "No vapor now");
  if (one) return draw_tile_face(t, rect, dwell_tile(look, walk, view, dwells.front()), {});
  const std::vector<Rect> cells = cells_for(t, rect, dwells.size());
  for (std::size_t i = 0; i < std::min(cells.size(), dwells.size()); ++i)
    if (draw_tile(t, cells[i], dwell_tile(look, walk, view, dwells[i])))
      choose(view, dwells[i].colony);
}

void draw_cloths(Touch& t, const Rect& rect, const Look& look, const engine::Walk& walk,
                 WalkView& view) {
  if (walk.cloths.empty()) return draw_rest(t, rect, "No cloths on this walk");
  const std::vector<Rect> cells = cells_for(t, rect, walk.cloths.size());
  const Shown s = shown_cloths(look, walk, cells.size());
  for (std::size_t i = 0; i < s.places.size(); ++i)
    draw_cloth(t, cells[i], look, s.places[i], view);
  if (s.hidden == 0) return;
  const std::string more = engine::counted(s.hidden, "more cloth", "more cloths");
  if (button(t, cells[s.places.size()], more, {.second = "on the map", .id = "more cloths"}))
    view.panel = WalkPanel::Map;
}

}  // namespace ui
