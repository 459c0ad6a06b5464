// The walk screen picks its page; each page is its own file.
#include "engine/guide/advice.h"
#include "ui/screens/walk/plan/walk_pages.h"
#include "ui/screens/walk/plan/walk_words.h"

namespace ui {
namespace {

// Opening is over: the next walk notes its own conditions.
void forget_opening(WalkView& view) {
  if (!view.yard) return;
  view.yard.reset();
  view.only.clear();
  view.course.reset();
  view.conditions = {};
  view.flight_said = false;
  view.seal.reset();
  view.comparing = false;
  view.compare_done = false;
  view.closed_walk.reset();
  view.mishap_at.reset();
  view.mishap_since.reset();
  view.again.clear();
  view.again_done.reset();
  view.page = OpenPage::Start;
  view.panel = WalkPanel::None;
  view.chosen.reset();
  view.dose.reset();
  view.list_page = 0;
  view.map_page = 0;
}

Ask opening(Touch& t, const Rect& room, const Look& look, Views& views) {
  WalkView& view = views.walk;
  view.panel = WalkPanel::None;
  if (view.yard && look.farm.yards.count(*view.yard) == 0) view.yard.reset();
  if (view.yard) view.closed_walk.reset();  // another screen asks for the next walk
  if (view.closed_walk) {
    const auto closed = look.farm.walks.find(*view.closed_walk);
    if (closed != look.farm.walks.end() && closed->second.closed)
      return walk_closed(t, room, look, closed->second, views);
  }
  if (!view.yard) return walk_yards(t, room, look, views);
  return walk_open_page(t, room, look, views);
}

}  // namespace

Ask walk_screen(Touch& t, const Rect& room, const Look& look, Views& views) {
  WalkView& view = views.walk;
  if (view.first_aid) return first_aid(t, room, view), Ask{};
  const engine::Walk* walk = engine::walk_under_way(look.farm, look.device);
  if (walk == nullptr) return opening(t, room, look, views);
  forget_opening(view);
  if (view.panel != WalkPanel::None) return walk_panel(t, room, look, *walk, views);
  const engine::Advice advice = advice_now(look, *walk, view.chosen);
  if (advice.what == engine::Do::ConfirmProtection) return walk_gate(t, room, look, *walk, views);
  if (advice.what == engine::Do::Finished) return walk_end(t, room, look, *walk, views);
  if (again_wanted(look, *walk, view)) return walk_again(t, room, look, *walk, views);
  return walk_now(t, room, look, *walk, views);
}

}  // namespace ui
