// The colonies where they stand; tapping one makes it the next step.
#include "ui/screens/walk/now/walk_map.h"

#include <algorithm>

#include "engine/language/tr.h"
#include "engine/walk/come_back.h"
#include "engine/walk/timers.h"
#include "engine/words/lookup.h"
#include "ui/screens/walk/now/walk_yard.h"
#include "ui/screens/walk/plan/walk_pages.h"
#include "ui/screens/walk/plan/walk_words.h"

namespace ui {

using engine::tr;
namespace {

struct State {
  std::string word;
  Mark mark;
  Surface surface;
};

std::string time_of(const std::vector<engine::Timer>& timers, engine::ColonyId colony) {
  for (const engine::Timer& timer : timers)
    if (timer.colony == colony) return timer.due() ? tr("due") : to_go(timer.left());
  return {};
}

// Which cloth it is; where a tile has no room for that, the time it has to lie.
std::string cloth_word(const Touch& t, const Look& look, const engine::Walk& walk,
                       const engine::Stop& stop) {
  const std::string time = time_of(engine::seals(walk, look.now), stop.colony);
  const auto& cloth = stop.treatments.back().cloth;
  if (!cloth) return time;
  const std::string name = kit_shown(look, *cloth);
  return text_width(t, name, Size::Small) <= t.least_w() - t.mm(4) ? name : time;
}

State state_of(const Touch& t, const Look& look, const engine::Walk& walk,
               const engine::Stop& stop) {
  switch (stop.phase) {
    case engine::Phase::ToDo:
      return {tr("to do"), Mark::Open, Surface::Button};
    case engine::Phase::UnderVapor:
      return {time_of(engine::dwells(walk, look.now), stop.colony), Mark::Vapor, Surface::Active};
    case engine::Phase::Covered:
      return {cloth_word(t, look, walk, stop), Mark::Cloth, Surface::Waiting};
    case engine::Phase::PassedOver:
      return {tr("passed"), Mark::Cross, Surface::Muted};
    case engine::Phase::Done:
      if (!engine::reasons_to_come_back(walk, stop).empty())
        return {tr("again"), Mark::Return, Surface::Warning};
      return {tr("done"), Mark::Check, Surface::Good};
  }
  return {};
}

// Whether every name can be read on the tile it gets; two lines of small type at most.
bool names_fit(const Touch& t, const Rect& room, const std::vector<Tile>& tiles) {
  const auto width = [&](const std::string& s) { return text_width(t, s, Size::Small); };
  const MapPlan plan = plan_map(room, tiles, t.least_w(), t.least_h(), t.gap());
  for (const MapPage& page : plan.pages)
    for (const Spot& spot : page.spots) {
      const std::string& name = tiles[spot.tile].label;
      const float wide = (spot.rect.w - t.mm(3.8F)) * 0.62F - t.mm(1);
      if (width(name) > wide * 1.6F) return false;
      for (std::size_t from = 0; from < name.size();) {
        const std::size_t end = std::min(name.find(' ', from), name.size());
        if (width(name.substr(from, end - from)) > wide) return false;
        from = end + 1;
      }
    }
  return true;
}

// Long names: the same as a list.
std::optional<std::size_t> as_list(Touch& t, const Rect& room, int& page,
                                   const std::vector<Tile>& tiles) {
  std::vector<Row> list;
  for (const Tile& tile : tiles)
    list.push_back({.title = tile.label,
                    .tag = tile.word,
                    .mark = tile.mark,
                    .tag_surface = tile.surface,
                    .chosen = tile.current});
  return list_rows(t, room, page, list);
}

std::vector<Tile> tiles_of(const Touch& t, const Look& look, const engine::Walk& walk,
                           const WalkView& view) {
  const auto current = subject(look, walk, view.under_way);
  std::vector<Tile> tiles;
  for (const engine::Stop& s : walk.stops) {
    const State state = state_of(t, look, walk, s);
    tiles.push_back({.label = called(look, s.colony),
                     .word = state.word,
                     .mark = state.mark,
                     .surface = state.surface,
                     .current = current == s.colony});
  }
  return tiles;
}

void draw_footer(Touch& t, const Rect& rect, WalkView& view, WalkPanel after) {
  const bool order = view.under_way.chosen && after == WalkPanel::None;
  std::vector<DialogButton> buttons{{tr("Back")}};
  if (after == WalkPanel::None) buttons.push_back({tr("Plan")});
  if (order) buttons.push_back({tr("By the plan")});
  const auto counted = walk_footer(t, rect, view, buttons);
  if (counted) view.under_way.panel = counted == 1 ? WalkPanel::Plan : after;
  if (counted == 2) view.under_way.chosen.reset();
}

}  // namespace

Ask walk_map(Touch& t, const Rect& room, const Look& look, const engine::Walk& walk,
             WalkView& view) {
  const bool mishap = view.under_way.panel == WalkPanel::MishapMap;
  const WalkPanel after = mishap ? WalkPanel::Mishap : WalkPanel::None;
  std::vector<Tile> tiles = tiles_of(t, look, walk, view);
  const bool true_places = place_hives(look, walk, t.portrait(), tiles);
  std::string title = mishap ? tr("Problem: at which colony?") : tr("Tap a colony");
  WalkPage page = walk_page(t, room, "");
  const bool fit = names_fit(t, page.room, tiles);
  if (fit && true_places) title += mishap ? "" : tr(" (north is up)");
  const float line = line_height(t, Size::Large);
  text(t, {room.x, room.y, room.w, line}, title, {.size = Size::Large});
  draw_footer(t, page.footer, view, after);
  const auto tapped = fit ? map(t, page.room, view.under_way.map_page, tiles)
                          : as_list(t, page.room, view.under_way.map_page, tiles);
  if (!tapped) return {};
  (mishap ? view.under_way.mishap_at : view.under_way.chosen) = walk.stops[*tapped].colony;
  view.under_way.panel = after;
  return {};
}

}  // namespace ui
