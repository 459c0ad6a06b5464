// The walk picks its page; each page is its own file.
#include "ui/screens/walk/walk_screen.h"

#include "engine/guide/advice.h"
#include "ui/screens/walk/now/walk_end.h"
#include "ui/screens/walk/now/walk_now.h"
#include "ui/screens/walk/open/walk_gate.h"
#include "ui/screens/walk/open/walk_open_pages.h"
#include "ui/screens/walk/open/walk_yards.h"
#include "ui/screens/walk/panels/first_aid.h"
#include "ui/screens/walk/panels/walk_again.h"
#include "ui/screens/walk/panels/walk_old.h"
#include "ui/screens/walk/panels/walk_panels.h"
#include "ui/screens/walk/plan/walk_words.h"

namespace ui {
namespace {

// The walk whose summary is still to be shown; nullptr: none.
const engine::Walk* just_closed(const Look& look, const WalkView& view) {
  if (!view.closed) return nullptr;
  const auto at = look.farm.walks.find(view.closed->walk);
  return at != look.farm.walks.end() && at->second.closed ? &at->second : nullptr;
}

Ask before_a_walk(Touch& t, const Rect& room, const Look& look, WalkView& view) {
  view.under_way = {};
  Opening& opening = view.opening;
  if (opening.yard && !look.farm.yards.contains(*opening.yard)) opening.yard.reset();
  if (opening.yard) view.closed.reset();  // another screen asks for the next walk
  if (const engine::Walk* closed = just_closed(look, view))
    return walk_closed(t, room, look, *closed, view);
  if (!opening.yard) return walk_yards(t, room, look, view);
  return walk_open_page(t, room, look, view);
}

}  // namespace

bool fills_the_screen(const Look& look, const WalkView& view) {
  const engine::Walk* walk = engine::walk_under_way(look.farm, look.device);
  if (walk == nullptr) return false;
  if (view.under_way.panel != WalkPanel::None) return true;
  if (was_left_open(look, *walk, view.under_way)) return true;
  const engine::Advice advice = advice_now(look, *walk, view.under_way.chosen);
  return advice.what != engine::Do::ConfirmProtection && advice.what != engine::Do::Finished;
}

Ask walk_screen(Touch& t, const Rect& room, const Look& look, WalkView& view) {
  if (view.first_aid) {
    if (first_aid(t, room, look)) view.first_aid = false;
    return {};
  }
  const engine::Walk* walk = engine::walk_under_way(look.farm, look.device);
  if (walk == nullptr) return before_a_walk(t, room, look, view);
  view.opening = {};
  if (view.closed && view.closed->walk != walk->id) view.closed.reset();
  const UnderWay& now = view.under_way;
  if (now.panel != WalkPanel::None) return walk_panel(t, room, look, *walk, view);
  if (was_left_open(look, *walk, now)) return walk_old(t, room, look, *walk, view);
  const engine::Advice advice = advice_now(look, *walk, now.chosen);
  if (advice.what == engine::Do::ConfirmProtection) return walk_gate(t, room, look, *walk, view);
  if (advice.what == engine::Do::Finished) return walk_end(t, room, look, *walk, view);
  if (again_wanted(look, *walk, now)) return walk_again(t, room, look, *walk, view);
  return walk_now(t, room, look, *walk, view);
}

}  // namespace ui
