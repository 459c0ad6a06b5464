// The plan under way as lanes; and after the walk, what was planned beside what was done.
#include "ui/screens/walk/now/walk_compare.h"

#include <array>

#include "engine/guide/planned.h"
#include "engine/language/tr.h"
#include "ui/screens/answers/answers.h"
#include "ui/screens/walk/plan/walk_lanes.h"
#include "ui/screens/walk/plan/walk_pages.h"

namespace ui {

using engine::tr;

void walk_plan_now(Touch& t, const Rect& room, const Look& look, const engine::Walk& walk,
                   WalkView& view) {
  WalkPage page = walk_page(t, room, tr("The rest of the walk, by the plan"));
  const DialogButton buttons[] = {{tr("Back")}, {tr("Map")}};
  const auto counted = walk_footer(t, page.footer, view, buttons);
  if (counted == 0) view.under_way.panel = WalkPanel::None;
  if (counted == 1) view.under_way.panel = WalkPanel::Map;
  const engine::Lead* led = lead(look, walk);
  if (led == nullptr)
    return notice(t, page.room, tr("No plan: there is no cloth on this walk."), Mark::Dot,
                  Surface::Panel);
  Lanes plan = lanes_of_plan(look, walk, led->visits);
  plan.moments.push_back({led->from.now_s / 60, Mark::Clock, tr("now")});
  draw_lanes(t, page.room, view.under_way.map_page, plan);
}

void compare_button(Touch& t, const Rect& rect, const engine::Walk& walk, Comparing& compare) {
  const bool any = engine::planned_and_done(walk).has_value();
  if (button(t, rect, tr("As planned?"), {.enabled = any})) compare.open = true;
}

void walk_compare(Touch& t, const Rect& room, const Look& look, const engine::Walk& walk,
                  Comparing& compare, WalkView& view) {
  WalkPage page = walk_page(t, room, tr("Planned and done"));
  const DialogButton back[] = {{tr("Back")}};
  if (walk_footer(t, page.footer, view, back)) compare.open = false;
  const auto compared = engine::planned_and_done(walk);
  if (!compared) return;
  notice(t, page.room, engine::words(*compared), Mark::Clock, Surface::Panel);
  page.room.y += t.mm(1), page.room.h -= t.mm(1);
  Lanes planned = lanes_of_plan(look, walk_as_opened(walk), walk.planned);
  Lanes done = lanes_of_done(look, walk);
  share_scale(planned, done);
  const std::array<std::string, 2> which{tr("Planned"), tr("Done")};
  const float high = choice_height(t, which, page.room.w);
  const auto tapped = choice(t, cut_top(page.room, high, t.gap()), which, compare.done ? 1 : 0);
  if (tapped) compare.done = *tapped == 1;
  draw_lanes(t, page.room, compare.page, compare.done ? done : planned);
}

}  // namespace ui
