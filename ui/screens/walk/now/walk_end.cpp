// The end of a walk. Every colony has had its turn: what came of it, and closing it as the thing to
// do. Then, closed: the same once more, and the log to write.
#include "ui/screens/walk/now/walk_end.h"

#include <algorithm>
#include <cassert>

#include "engine/language/tr.h"
#include "engine/walk/come_back.h"
#include "engine/words/lookup.h"
#include "engine/words/words.h"
#include "ui/screens/walk/now/walk_compare.h"
#include "ui/screens/walk/plan/walk_pages.h"
#include "ui/screens/walk/plan/walk_words.h"

namespace ui {

using engine::tr;
using engine::translated;
namespace {

std::string reason_text(const engine::ComeBackReason& r) {
  std::string out = translated(engine::words(r.why));
  if (r.passed) out += ": " + translated(engine::words(*r.passed));
  if (r.mishap) out += ": " + translated(engine::words(*r.mishap));
  if (r.length) out += fmt::format(" ({})", engine::minutes_seconds(*r.length));
  return out;
}

std::string reasons_text(const std::vector<engine::ComeBackReason>& reasons) {
  std::string all;
  for (const engine::ComeBackReason& r : reasons) all += (all.empty() ? "" : ", ") + reason_text(r);
  return all;
}

std::vector<Row> come_backs(const Look& look, const engine::Walk& walk) {
  std::vector<Row> list;
  for (const engine::Stop& s : walk.stops) {
    const auto reasons = engine::reasons_to_come_back(walk, s);
    if (!reasons.empty())
      list.push_back({.title = called(look, s.colony) + ": " + reasons_text(reasons)});
  }
  return list;
}

void draw_facts(Touch& t, Rect& room, const Look& look, const engine::Walk& walk) {
  const engine::Ms took = engine::elapsed(walk.opened, walk.closed.value_or(look.now)).length;
  const std::vector<Rect> cells = t.portrait()
                                      ? columns(cut_top(room, t.mm(21), t.gap()), 4, t.mm(2))
                                      : grid(cut_top(room, t.mm(42), t.gap()), 2, 2, t.mm(2));
  const engine::WalkTotals sum = engine::totals_of(walk);
  const std::pair<std::string, std::string> length = {
      tr("{} min", std::chrono::floor<std::chrono::minutes>(took).count()),
      tr("since {}", engine::clock_time(walk.opened))};
  // Each colony is in one of these numbers, as in the report and the register.
  const std::pair<std::string, std::string> facts[] = {
      {std::to_string(sum.treated), tr("treated")},
      {std::to_string(sum.come_back), tr("treated, again")},
      {std::to_string(sum.passed_over), tr("passed over")},
      sum.not_reached > 0 ? std::pair{std::to_string(sum.not_reached), tr("not reached")} : length};
  for (std::size_t i = 0; i < 4; ++i) {
    t.fill(cells[i], Surface::Panel, t.mm(0.3F));
    Rect box = inset(cells[i], t.mm(2), t.mm(1.5F));
    text(t, cut_bottom(box, line_height(t, Size::Body)), facts[i].second,
         {.align = Align::Center, .quiet = true});
    text(t, box, facts[i].first, {.size = Size::Huge, .align = Align::Center});
  }
}

// Facts, the colonies to come back to; returns the room that is left for buttons.
Rect draw_summary(Touch& t, Rect room, const Look& look, const engine::Walk& walk, int& list_page) {
  const std::vector<Row> again = come_backs(look, walk);
  Rect side = room;
  if (!t.portrait()) side = cut_right(room, room.w * 0.42F, t.gap());
  draw_facts(t, side, look, walk);
  if (t.portrait()) room = side;
  const Rect ends = t.portrait() ? cut_bottom(room, t.least_h() * 3.2F, t.gap()) : side;
  const std::string title =
      again.empty() ? tr("No colony needs another visit.") : tr("Come back to:");
  text(t, cut_top(room, line_height(t, Size::Body), t.mm(1.5F)), title, {.quiet = true});
  list_rows(t, room, list_page, again, RowKind::Shown);
  return ends;
}

}  // namespace

Ask walk_end(Touch& t, const Rect& room, const Look& look, const engine::Walk& walk,
             WalkView& view) {
  UnderWay& under_way = view.under_way;
  Comparing& compare = under_way.compare;
  if (compare.open) return walk_compare(t, room, look, walk, compare, view), Ask{};
  WalkPage page = walk_page(t, room, tr("{}: all done", engine::yard_called(look.farm, walk.yard)));
  const DialogButton buttons[] = {{tr("Map")}, {tr("Problem")}, {tr("Undo last")}};
  if (const auto counted = walk_footer(t, page.footer, view, buttons)) {
    constexpr WalkPanel kPanels[] = {WalkPanel::Map, WalkPanel::Mishap, WalkPanel::StrikeLast};
    under_way.panel = kPanels[*counted];
  }
  Rect ends = draw_summary(t, page.room, look, walk, under_way.list_page);
  const std::vector<Rect> under = columns(cut_bottom(ends, t.least_h(), t.gap()), 2, t.gap());
  Ask asked;
  if (button(t, under[0], tr("Write the log"))) asked = ToLogWriting{};
  compare_button(t, under[1], walk, compare);
  const engine::WalkClosed closed{walk.id, under_way.stop_why};
  if (!action_button(t, ends, tr("Close the walk"), tr("then write the log"),
                     why_not(look, closed) == engine::Refusal::None))
    return asked;
  view.closed = JustClosed{.walk = walk.id};
  return engine::Body{closed};
}

Ask walk_closed(Touch& t, const Rect& room, const Look& look, const engine::Walk& walk,
                WalkView& view) {
  assert(view.closed && walk.closed);
  Comparing& compare = view.closed->compare;
  if (compare.open) return walk_compare(t, room, look, walk, compare, view), Ask{};
  const std::string title = tr("{}: walk closed at {}", engine::yard_called(look.farm, walk.yard),
                               engine::clock_time(*walk.closed));
  const std::string why =
      walk.closed_why ? ", " + translated(engine::words(*walk.closed_why)) : std::string();
  WalkPage page = walk_page(t, room, title + why);
  walk_footer(t, page.footer, view, {});
  Rect ends = draw_summary(t, page.room, look, walk, view.closed->list_page);
  const std::vector<Rect> under = columns(cut_bottom(ends, t.least_h(), t.gap()), 2, t.gap());
  compare_button(t, under[1], walk, compare);
  Ask asked;
  if (action_button(t, ends, tr("Write the log"), tr("so that it is not on this tablet only")))
    asked = ToLogWriting{};
  if (button(t, under[0], tr("Done"), {.large = true})) view.closed.reset();
  return asked;
}

}  // namespace ui
