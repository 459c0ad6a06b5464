#include "ui/screens/walk/now/walk_timers.h"

#include <fmt/format.h>

#include <algorithm>
#include <span>

#include "engine/walk/timers.h"
#include "engine/words/lookup.h"
#include "engine/words/words.h"
#include "ui/screens/walk/now/walk_alarm.h"
#include "ui/screens/walk/plan/walk_words.h"

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
  bool dwell = false;  // vapor: how long it is over counts
  bool calm = false;   // past its goal, but something else comes first: "ready", no alarm
};

// How the tiles of one group are written, so that none is smaller than its neighbour.
struct Writing {
  Size size = Size::Small;
  bool stacked = false;  // the name above the time
};

bool ready(const TimerTile& tile) { return tile.calm && tile.timer.sure && tile.timer.due(); }

std::string time_words(const TimerTile& tile) {
  const engine::Timer& timer = tile.timer;
  if (!timer.sure) return "check";
  if (!timer.due()) return to_go(timer.left());
  return tile.dwell ? clock_text(std::chrono::floor<std::chrono::seconds>(timer.left())) : "due";
}

Surface surface_of(const TimerTile& tile, const Hit& hit) {
  if (hit.pressed) return Surface::Pressed;
  if (ready(tile)) return tile.surface;
  return tile.timer.due() || !tile.timer.sure ? Surface::Warning : tile.surface;
}

Rect inside(const Touch& t, const Rect& rect) { return inset(rect, t.mm(1.3F), t.mm(1.2F)); }

// What most times of the tile need: the size of type does not change from second to second.
float time_width(const Touch& t, const TimerTile& tile, Size size) {
  const std::string longest = to_go(tile.timer.goal - std::chrono::seconds{1});
  return std::max(text_width(t, longest, size), text_width(t, "due", size)) + 1;
}

// The largest type in which each name and each time stand side by side under what it is.
Writing writing_for(const Touch& t, const Rect& cell, std::span<const TimerTile> tiles) {
  const Rect room = inside(t, cell);
  const float high = room.h - line_height(t, Size::Small);
  for (const Size size : {Size::Huge, Size::Large, Size::Body, Size::Small}) {
    const bool fit = std::all_of(tiles.begin(), tiles.end(), [&](const TimerTile& tile) {
      return text_width(t, tile.colony, size) + time_width(t, tile, size) + t.mm(1) <= room.w;
    });
    if (fit && line_height(t, size) <= high + 2) return {size, false};
  }
  return {Size::Body, true};
}

// Amber, and it does not flash: the word, or a tick where the name leaves no room for it.
void draw_ready(Touch& t, Rect rect, Size size) {
  const float high = std::min(rect.h, line_height(t, size) + t.mm(0.6F));
  rect = {rect.x, rect.mid_y() - high / 2, rect.w, high};
  t.fill(rect, Surface::Warning);
  if (text_width(t, "ready", Size::Small) + 2 <= rect.w)
    text(t, rect, "ready", {.size = size, .align = Align::Center});
  else
    draw_mark(t.draw(), Mark::Check, rect, t.theme()[Surface::Warning].ink);
}

// A time too long for its place gives way to a word, not to smaller type.
void draw_time(Touch& t, const Rect& rect, const TimerTile& tile, Size size) {
  if (ready(tile)) return draw_ready(t, rect, size);
  std::string words = time_words(tile);
  if (tile.timer.due() && text_width(t, words, size) > rect.w) words = "due";
  text(t, rect, words, {.size = size, .align = Align::Right});
}

// The name over the time: for long names.
void draw_stacked(Touch& t, Rect room, const TimerTile& tile) {
  Rect under = cut_bottom(room, line_height(t, Size::Body));
  const float wide =
      std::max(text_width(t, "ready", Size::Small) + t.mm(1), time_width(t, tile, Size::Body));
  draw_time(t, cut_right(under, wide, t.mm(1)), tile, Size::Body);
  if (text_width(t, tile.what, Size::Small) < under.w)
    text(t, under, tile.what, {.size = Size::Small, .quiet = true});
  text(t, room, tile.colony, {.size = Size::Body});
}

// Name and time side by side if they can be, under what it is.
void draw_inside(Touch& t, Rect room, const TimerTile& tile, const Writing& writing) {
  if (writing.stacked) return draw_stacked(t, room, tile);
  const Rect what = cut_top(room, line_height(t, Size::Small));
  if (text_width(t, tile.what, Size::Small) <= what.w)  // else the target's own name says it
    text(t, what, tile.what, {.size = Size::Small, .quiet = true});
  const float name = text_width(t, tile.colony, writing.size) + 1;
  text(t, cut_left(room, name, t.mm(1)), tile.colony, {.size = writing.size});
  draw_time(t, room, tile, writing.size);
}

// A second tap lets go again.
void choose(WalkView& view, engine::ColonyId colony) {
  if (view.under_way.chosen == colony)
    view.under_way.chosen.reset();
  else
    view.under_way.chosen = colony;
}

void draw_tile_face(Touch& t, const Rect& rect, const TimerTile& tile, const Hit& hit,
                    const Writing& writing) {
  t.fill(rect, surface_of(tile, hit), t.mm(tile.chosen ? 1.2F : 0.4F));
  draw_inside(t, inside(t, rect), tile, writing);
}

bool draw_tile(Touch& t, const Rect& rect, const TimerTile& tile, const Writing& writing) {
  const Hit hit = t.target(tile.label, rect);
  draw_tile_face(t, rect, tile, hit, writing);
  return hit.tapped;
}

void draw_rest(Touch& t, const Rect& rect, std::string_view words) {
  t.fill(rect, Surface::Panel, t.mm(0.3F));
  text(t, inset(rect, t.mm(2)), words, {.align = Align::Center, .quiet = true});
}

// A tile must hold the longest word of the names on it.
float word_width(const Touch& t, std::string_view name) {
  float wide = 0;
  while (!name.empty()) {
    const std::size_t end = std::min(name.find(' '), name.size());
    wide = std::max(wide, text_width(t, name.substr(0, end), Size::Small));
    name.remove_prefix(std::min(end + 1, name.size()));
  }
  return wide;
}

float least_tile(const Touch& t, const Look& look, const engine::Walk& walk) {
  float wide = 0;
  for (const engine::Stop& s : walk.stops)
    wide = std::max(wide, word_width(t, called(look, s.colony)));
  return std::max(t.least_w(), wide + t.mm(4));
}

// As few columns as hold all, as many as there is room for.
std::vector<Rect> cells_for(const Touch& t, const Rect& rect, std::size_t n, float least_w) {
  const std::size_t lines = std::max<std::size_t>(1, fit_count(rect.h, t.least_h(), t.gap()));
  const std::size_t most = std::max<std::size_t>(1, fit_count(rect.w, least_w, t.gap()));
  const std::size_t cols = std::clamp<std::size_t>((n + lines - 1) / lines, 1, most);
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
  tile.dwell = true;
  tile.chosen = view.under_way.chosen == timer.colony;
  return tile;
}

TimerTile cloth_tile(const Look& look, const engine::Walk& walk, const WalkView& view,
                     const engine::ClothPlace& place) {
  TimerTile tile{.colony = called(look, place.seal->colony),
                 .what = engine::kit_called(look.farm, place.cloth),
                 .timer = *place.seal};
  tile.label = fmt::format("{} on {}", tile.what, tile.colony);
  tile.chosen = view.under_way.chosen == place.seal->colony;
  tile.calm = vapor_to_come(walk);
  return tile;
}

// The cloths that have no tile, in one button: how many, and what the first of them is up to.
void draw_hidden(Touch& t, const Rect& rect, std::span<const engine::ClothPlace> hidden,
                 WalkView& view) {
  std::optional<engine::Timer> first;
  for (const engine::ClothPlace& p : hidden)
    if (p.seal && (!first || p.seal->elapsed > first->elapsed)) first = p.seal;
  std::string second = "on the map";
  if (first) second = first->due() ? "one is ready" : to_go(first->left());
  const Surface surface = first && first->due() ? Surface::Warning : Surface::Button;
  const std::string more = engine::counted(hidden.size(), "more cloth", "more cloths");
  if (button(t, rect, more, {.surface = surface, .second = second, .id = "more cloths"}))
    view.under_way.panel = WalkPanel::Map;
}

}  // namespace

void draw_dwells(Touch& t, const Rect& rect, const Look& look, const engine::Walk& walk,
                 WalkView& view) {
  const bool one = walk.vaporizers.size() < 2;
  if (one && rect.h >= t.mm(21.5F)) return draw_one_dwell(t, rect, look, walk);
  const auto dwells = engine::dwells(walk, look.now);
  if (dwells.empty()) return draw_rest(t, rect, "No vapor now");
  std::vector<TimerTile> tiles;
  for (const engine::Timer& d : dwells) tiles.push_back(dwell_tile(look, walk, view, d));
  if (one) return draw_tile_face(t, rect, tiles[0], {}, writing_for(t, rect, tiles));
  const std::vector<Rect> cells = cells_for(t, rect, tiles.size(), least_tile(t, look, walk));
  const Writing writing = writing_for(t, cells[0], tiles);
  for (std::size_t i = 0; i < std::min(cells.size(), tiles.size()); ++i)
    if (draw_tile(t, cells[i], tiles[i], writing)) choose(view, dwells[i].colony);
}

// A cloth keeps its tile through the whole walk, so that it is always found in the same spot.
void draw_cloths(Touch& t, const Rect& rect, const Look& look, const engine::Walk& walk,
                 WalkView& view) {
  if (walk.cloths.empty()) return draw_rest(t, rect, "No cloths on this walk");
  const std::size_t n = walk.cloths.size();
  const std::vector<Rect> cells = cells_for(t, rect, n, least_tile(t, look, walk));
  const std::size_t shown = n <= cells.size() ? n : cells.size() - 1;
  const auto places = engine::cloth_places(walk, look.now);
  std::vector<TimerTile> tiles;
  for (std::size_t i = 0; i < shown; ++i)
    if (places[i].seal) tiles.push_back(cloth_tile(look, walk, view, places[i]));
  const Writing writing = writing_for(t, cells[0], tiles);
  for (std::size_t i = 0, next = 0; i < shown; ++i) {
    if (!places[i].seal)
      draw_rest(t, cells[i], engine::kit_called(look.farm, places[i].cloth) + " is free");
    else if (draw_tile(t, cells[i], tiles[next++], writing))
      choose(view, places[i].seal->colony);
  }
  if (shown < n) draw_hidden(t, cells[shown], std::span(places).subspan(shown), view);
}

}  // namespace ui
