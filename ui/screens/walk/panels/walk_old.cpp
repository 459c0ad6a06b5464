#include "ui/screens/walk/panels/walk_old.h"

#include <algorithm>
#include <vector>

#include "engine/events/things.h"
#include "engine/language/tr.h"
#include "engine/words/words.h"
#include "ui/screens/base/layout.h"
#include "ui/screens/base/pictured.h"
#include "ui/screens/walk/panels/walk_shut.h"
#include "ui/screens/walk/plan/walk_pages.h"
#include "ui/screens/walk/plan/walk_words.h"

namespace ui {

using engine::tr;
using engine::translated;

namespace {

// Of the walk's last entry that counts; its opening is one.
engine::Stamp last_stamp(const engine::Farm& farm, const engine::Walk& walk) {
  for (std::size_t i = farm.log.size(); i-- > 0;) {
    const engine::EntryHandle e = farm.log[i];
    const engine::WalkId* id = engine::walk_of(e->event.body);
    if (id != nullptr && *id == walk.id && e->counts()) return e->event.stamp;
  }
  return walk.opened;
}

std::vector<std::string> lines_of(const Look& look, const engine::Walk& walk) {
  const std::size_t done = had_their_turn(walk);
  std::vector<std::string> lines = {tr("{}, opened at {}. {} of {} hives had their turn.",
                                       look.farm.yards.at(walk.yard).name,
                                       engine::clock_time(walk.opened), done, walk.stops.size())};
  if (any_shut(walk))
    lines.push_back(
        tr("Some hives were shut when the last thing was entered: look at them first."));
  lines.push_back(tr(
      "If you close it now, what was not reached goes onto the come-back list; nothing is lost."));
  return lines;
}

}  // namespace

bool was_left_open(const Look& look, const engine::Walk& walk, const UnderWay& view) {
  if (view.old_kept) return false;
  const engine::Elapsed since = engine::elapsed(last_stamp(look.farm, walk), look.now);
  return since.sure && since.length >= kLongAgo;
}

Ask walk_old(Touch& t, const Rect& room, const Look& look, const engine::Walk& walk,
             WalkView& view) {
  WalkPage page =
      walk_page(t, room, tr("This walk is of {}", day_words(engine::local_date(walk.opened))));
  (void)walk_footer(t, page.footer, view, {});
  const Rect both = cut_bottom(page.room, t.mm(34), t.gap());
  told(t, page.room, "", lines_of(look, walk));
  const std::vector<Rect> cells = columns(both, 2, t.gap());
  ActLook go;
  if (act_button(t, cells[0], tr("Go on with it"), go)) view.under_way.old_kept = true;
  const engine::Refusal refusal = why_not(look, engine::WalkClosed{walk.id});
  const bool may = refusal == engine::Refusal::None;
  const std::string second = translated(engine::sentence(refusal));  // empty: it may be
  const ButtonLook end{
      .enabled = may, .surface = Surface::Warning, .second = second, .large = true};
  if (!hold_button(t, cells[1], tr("It was never ended: close it"), end)) return {};
  if (!any_shut(walk)) return close_walk(walk, view);
  view.under_way.old_kept = true;
  view.under_way.panel = WalkPanel::StillShut;
  return {};
}

}  // namespace ui
