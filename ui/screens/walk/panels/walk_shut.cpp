#include "ui/screens/walk/panels/walk_shut.h"

#include <algorithm>
#include <vector>

#include "engine/language/tr.h"
#include "engine/words/words.h"
#include "ui/screens/base/drawing.h"
#include "ui/screens/base/pictured.h"
#include "ui/screens/walk/now/walk_yard.h"
#include "ui/screens/walk/panels/walk_close.h"
#include "ui/screens/walk/panels/walk_old.h"
#include "ui/screens/walk/plan/walk_pages.h"
#include "ui/screens/walk/plan/walk_words.h"

namespace ui {

using engine::tr;
using engine::tr_many;

namespace {

constexpr std::size_t kMostShown = 12;  // the others follow as these come off

std::vector<const engine::Stop*> shut_in(const engine::Walk& walk) {
  std::vector<const engine::Stop*> shut;
  for (const engine::Stop& stop : walk.stops)
    if (stop.phase == engine::Phase::Covered) shut.push_back(&stop);
  return shut;
}

std::vector<Rect> cells_for(const Touch& t, const Rect& room, std::size_t n) {
  const std::size_t cols = t.portrait() ? (n <= 3 ? 1 : 2) : n <= 2 ? n : n <= 6 ? 3 : 4;
  return grid(room, cols, (n + cols - 1) / cols, t.gap());
}

const engine::Timer* seal_of(const std::vector<engine::Timer>& seals, engine::ColonyId colony) {
  const auto at = std::find_if(seals.begin(), seals.end(),
                               [&](const engine::Timer& s) { return s.colony == colony; });
  return at == seals.end() ? nullptr : &*at;
}

// How long it has been closed, and what that means when it is too short.
std::string closed_words(const engine::Timer* seal) {
  if (seal == nullptr || !seal->sure) return tr("Check it yourself.");
  if (seal->elapsed >= kLongAgo) return tr("closed long ago");
  const std::string closed = tr("closed {}", engine::minutes_seconds(seal->elapsed));
  if (!seal->too_short()) return closed;
  return tr("{} of at least {}: hold", closed, engine::minutes_seconds(seal->least));
}

bool draw_shut(Touch& t, const Rect& rect, const Look& look, const engine::Walk& walk,
               const engine::Stop& stop, const engine::Timer* seal) {
  const bool brief = seal == nullptr || !seal->sure || seal->too_short();
  const std::string line = closed_words(seal);
  ActLook act{.line = line, .surface = Surface::Waiting, .hold = brief};
  const HiveDrawing hive = hive_of(look, walk, stop, false);
  act.picture = [&](const Rect& box, Colour) { draw_hive(t, box, hive); };
  return act_button(t, rect, tr("Cloth off {}", called(look, stop.colony)), act);
}

}  // namespace

bool any_shut(const engine::Walk& walk) { return !shut_in(walk).empty(); }

engine::Body close_walk(const engine::Walk& walk, WalkView& view) {
  view.under_way.panel = WalkPanel::None;
  view.under_way.chosen.reset();
  view.closed = JustClosed{.walk = walk.id};
  return engine::WalkClosed{walk.id, view.under_way.stop_why};
}

Ask walk_shut(Touch& t, const Rect& room, const Look& look, const engine::Walk& walk,
              WalkView& view) {
  const std::vector<const engine::Stop*> shut = shut_in(walk);
  if (shut.empty()) {
    view.under_way.panel = engine::complete(walk) ? WalkPanel::None : WalkPanel::Close;
    return walk_close(t, room, look, walk, view);
  }
  WalkPage page = walk_page(
      t, room,
      tr("{} still shut: those bees need air", tr_many("{} hive is", "{} hives are", shut.size())));
  const DialogButton back[] = {{tr("Back")}};
  if (walk_footer(t, page.footer, view, back)) view.under_way.panel = WalkPanel::Close;
  const Rect foot = cut_bottom(page.room, t.least_h(), t.gap());
  const std::size_t shown = std::min(shut.size(), kMostShown);
  const std::vector<Rect> cells = cells_for(t, page.room, std::max<std::size_t>(shown, 1));
  const std::vector<engine::Timer> seals = engine::seals(walk, look.now);
  Ask asked;
  for (std::size_t i = 0; i < shown; ++i)
    if (draw_shut(t, cells[i], look, walk, *shut[i], seal_of(seals, shut[i]->colony)))
      asked = engine::Body{engine::ColonyUncovered{walk.id, shut[i]->colony}};
  if (hold_button(t, foot, tr("Leave them shut and close the walk"), {.surface = Surface::Warning}))
    return close_walk(walk, view);
  return asked;
}

}  // namespace ui
