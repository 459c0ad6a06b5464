// After a break: the five protection items once more, before the next setting. Goggles come off in
// a pause and stay off. A reminder only, kept in the view: the journal has the items of the gate.
//
// When it comes is our own choice: a pause of ten minutes or more, or half an hour without an entry
// of the walk, since the last setting or the gate.
#include "ui/screens/walk/panels/walk_again.h"

#include "engine/events/things.h"
#include "engine/guide/advice.h"
#include "engine/language/tr.h"
#include "ui/screens/walk/open/walk_gate.h"
#include "ui/screens/walk/plan/walk_pages.h"
#include "ui/screens/walk/plan/walk_words.h"

namespace ui {

using engine::tr;
namespace {

using namespace std::chrono_literals;
constexpr engine::Ms kLongPause = 10min;  // own choice
constexpr engine::Ms kLongGap = 30min;    // own choice

std::vector<engine::EntryHandle> entries_of(const engine::Farm& farm, const engine::Walk& walk) {
  std::vector<engine::EntryHandle> list;
  for (std::size_t i = farm.log.size(); i-- > 0;) {
    engine::EntryHandle e = farm.log[i];
    const engine::WalkId* id = engine::walk_of(e->event.body);
    if (id == nullptr || *id != walk.id || !e->counts()) continue;
    list.push_back(e);
    if (std::holds_alternative<engine::WalkOpened>(e->event.body)) break;
  }
  return {list.rbegin(), list.rend()};
}

// Whether the break that ended with `to` was long; what was ticked after it began counts.
bool long_break(const engine::Stamp& from, const engine::Stamp& to, engine::Ms least,
                const std::optional<engine::Stamp>& ticked) {
  if (engine::elapsed(from, to).length < least) return false;
  return !ticked || engine::elapsed(*ticked, to).length >= least;
}

// Whether ticking came after the entry.
bool ticked_since(const engine::Stamp& entry, const std::optional<engine::Stamp>& ticked,
                  const engine::Stamp& now) {
  return ticked && engine::elapsed(*ticked, now).length <= engine::elapsed(entry, now).length;
}

bool was_away(const std::vector<engine::EntryHandle>& entries, const UnderWay& view,
              const engine::Stamp& now) {
  bool away = false;
  const engine::Stamp* last = nullptr;
  const engine::Stamp* paused = nullptr;
  for (const engine::EntryHandle& entry : entries) {
    const engine::Event* e = &entry->event;
    if (last && long_break(*last, e->stamp, kLongGap, view.again_done)) away = true;
    if (std::holds_alternative<engine::WalkPaused>(e->body)) paused = &e->stamp;
    if (paused && std::holds_alternative<engine::WalkResumed>(e->body))
      away |= engine::elapsed(*paused, e->stamp).length >= kLongPause;
    const bool set = std::holds_alternative<engine::VaporizerSet>(e->body);
    const bool gate = std::holds_alternative<engine::ProtectionConfirmed>(e->body);
    if (set || gate || ticked_since(e->stamp, view.again_done, now)) away = false;
    last = &e->stamp;
  }
  return away || (last && long_break(*last, now, kLongGap, view.again_done));
}

}  // namespace

bool again_wanted(const Look& look, const engine::Walk& walk, const UnderWay& view) {
  const engine::Advice a = advice_now(look, walk, view.chosen);
  if (a.what != engine::Do::Set && a.what != engine::Do::SetAgain) return false;
  for (const engine::Timer& d : engine::dwells(walk, look.now))
    if (d.due()) return false;  // lifting does not wait
  return was_away(entries_of(look.farm, walk), view, look.now);
}

Ask walk_again(Touch& t, const Rect& room, const Look& look, const engine::Walk& walk,
               WalkView& view) {
  WalkPage page = walk_page(t, room, tr("After the break: check each one again"));
  const DialogButton buttons[] = {{tr("Map")}, {tr("Skip")}, {tr("Problem")}, {tr("Pause")}};
  constexpr WalkPanel kPanels[] = {WalkPanel::Map, WalkPanel::PassOver, WalkPanel::Mishap,
                                   WalkPanel::Close};
  if (const auto counted = walk_footer(t, page.footer, view, buttons))
    view.under_way.panel = kPanels[*counted];
  notice(t, page.room,
         tr("A reminder before the next setting; the journal has what you confirmed."), Mark::Dot,
         Surface::Panel);
  page.room.y += t.mm(1);
  page.room.h -= t.mm(1);
  const auto list = protection_items(look, walk);
  const std::size_t cols = t.portrait() ? 1 : 2;
  const std::vector<Rect> cells = grid(page.room, cols, (list.size() + cols - 1) / cols, t.gap());
  for (std::size_t i = 0; i < list.size(); ++i) {
    const bool ticked = view.under_way.again.count(list[i].item) != 0;
    if (check_row(t, cells[i], list[i].label, ticked, list[i].second, !ticked))
      view.under_way.again.insert(list[i].item);
  }
  if (view.under_way.again.size() < list.size()) return {};
  view.under_way.again.clear();
  view.under_way.again_done = look.now;
  return {};
}

}  // namespace ui
