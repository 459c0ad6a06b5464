// The colonies where they stand; tapping one makes it the next step.
#include <fmt/format.h>

#include <algorithm>

#include "engine/walk/come_back.h"
#include "engine/walk/timers.h"
#include "ui/screens/walk_parts.h"
#include "ui/screens/walk_words.h"

namespace ui {
namespace {

struct State {
  std::string word;
  Mark mark;
  Surface surface;
};

std::string time_of(const std::vector<engine::Timer>& timers, engine::ColonyId colony) {
  for (const engine::Timer& timer : timers)
    if (timer.colony == colony) return timer.due() ? "due" : to_go(timer.left());
  return {};
}

State state_of(const engine::Walk& walk, const engine::Stop& stop, const engine::Stamp& now) {
  switch (stop.phase) {
    case engine::Phase::ToDo:
      return {"to do", Mark::Open, Surface::Button};
    case engine::Phase::UnderVapor:
      return {time_of(engine::dwells(walk, now), stop.colony), Mark::Vapor, Surface::Active};
    case engine::Phase::Covered:
      return {time_of(engine::seals(walk, now), stop.colony), Mark::Cloth, Surface::Waiting};
    case engine::Phase::PassedOver:
      return {"passed", Mark::Cross, Surface::Muted};
    case engine::Phase::Done:
      if (!engine::reasons_to_come_back(walk, stop).empty())
        return {"again", Mark::Return, Surface::Warning};
      return {"done", Mark::Check, Surface::Good};
  }
  return {};
}

// A yard's x runs east and y north; the screen's y runs down.
void place(const Look& look, const engine::Walk& walk, bool portrait, std::vector<Tile>& tiles) {
  const auto spot_of = [&](const engine::Stop& s) { return look.farm.colonies.at(s.colony).spot; };
  const bool all = std::all_of(walk.stops.begin(), walk.stops.end(),
                               [&](const engine::Stop& s) { return spot_of(s).has_value(); });
  const std::size_t cols = portrait ? 4 : 6;
  for (std::size_t i = 0; i < tiles.size(); ++i) {
    const auto spot = spot_of(walk.stops[i]);
    tiles[i].x = all ? static_cast<float>(spot->x_cm) : static_cast<float>(i % cols);
    tiles[i].y = all ? static_cast<float>(-spot->y_cm) : static_cast<float>(i / cols);
  }
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

}  // namespace

Ask walk_map(Touch& t, const Rect& room, const Look& look, const engine::Walk& walk, Views& views) {
  WalkView& view = views.walk;
  WalkPage page = walk_page(t, room, "Tap a colony");
  const auto current = subject(look, walk, view);
  std::vector<Tile> tiles;
  for (const engine::Stop& s : walk.stops) {
    const State state = state_of(walk, s, look.now);
    tiles.push_back({.label = called(look, s.colony),
                     .word = state.word,
                     .mark = state.mark,
                     .surface = state.surface,
                     .current = current == s.colony});
  }
  place(look, walk, t.portrait(), tiles);
  const std::vector<DialogButton> buttons =
      view.chosen ? std::vector<DialogButton>{{"Back"}, {"In the walk's order"}}
                  : std::vector<DialogButton>{{"Back"}};
  const auto counted = walk_footer(t, page.footer, view, buttons);
  if (counted) view.panel = WalkPanel::None;
  if (counted == 1) view.chosen.reset();
  const auto tapped = names_fit(t, page.room, tiles) ? map(t, page.room, view.map_page, tiles)
                                                     : as_list(t, page.room, view.map_page, tiles);
  if (tapped) {
    view.chosen = walk.stops[*tapped].colony;
    view.panel = WalkPanel::None;
  }
  return {};
}

}  // namespace ui
