// The mishap panel: at which colony, and what. A leaking seal is mostly about the colony covered
// last, the rest about the one under vapor; every button says which it would be.
#include "ui/screens/walk/panels/walk_mishap.h"

#include <algorithm>

#include "engine/language/tr.h"
#include "engine/walk/timers.h"
#include "engine/words/words.h"
#include "ui/screens/walk/plan/walk_pages.h"
#include "ui/screens/walk/plan/walk_words.h"

namespace ui {

using engine::tr;
using engine::translated;
namespace {

// Breathed in and stung are about the keeper; the rest is about a colony.
bool about_colony(engine::MishapKind kind) {
  return kind != engine::MishapKind::InhaledVapor && kind != engine::MishapKind::Stung;
}

// The colonies a mishap is mostly about; none where there is no such colony now.
struct Near {
  std::optional<engine::ColonyId> vapor, last, next;
};

Near near(const Look& look, const engine::Walk& walk, const WalkView& view) {
  Near n;
  const auto dwells = engine::dwells(walk, look.now);
  if (!dwells.empty()) n.vapor = dwells.front().colony;
  const auto seals = engine::seals(walk, look.now);
  if (!seals.empty()) n.last = seals.back().colony;  // closed for the shortest time
  n.next = next_to_set(look, walk, view.under_way);
  return n;
}

// What the keeper said, here or on the map; else what the kind is mostly about.
std::optional<engine::ColonyId> mishap_colony(const Look& look, const engine::Walk& walk,
                                              const WalkView& view, engine::MishapKind kind) {
  if (!about_colony(kind)) return std::nullopt;
  if (view.under_way.mishap_at) return view.under_way.mishap_at;
  if (view.under_way.chosen && engine::find_stop(walk, *view.under_way.chosen) != nullptr)
    return view.under_way.chosen;
  const Near n = near(look, walk, view);
  if (kind == engine::MishapKind::LeakingSeal && n.last) return n.last;
  return n.vapor ? n.vapor : subject(look, walk, view.under_way);
}

// Which colony: one tap for those it may be, the map for any other.
void draw_which(Touch& t, const Rect& rect, const Look& look, const engine::Walk& walk,
                WalkView& view) {
  const Near n = near(look, walk, view);
  const auto said = view.under_way.mishap_at ? view.under_way.mishap_at : view.under_way.chosen;
  std::vector<Choice> list;
  std::vector<engine::ColonyId> colonies;
  const auto offer = [&](const std::optional<engine::ColonyId>& colony, const std::string& what) {
    if (!colony || std::find(colonies.begin(), colonies.end(), *colony) != colonies.end()) return;
    colonies.push_back(*colony);
    list.push_back(
        {.label = tr("At {}", called(look, *colony)), .second = what, .chosen = said == *colony});
  };
  offer(n.vapor, tr("under vapor"));
  offer(n.last, tr("covered last"));
  offer(n.next, tr("next"));
  const bool elsewhere =
      said && std::find(colonies.begin(), colonies.end(), *said) == colonies.end();
  list.push_back({.label = elsewhere ? tr("At {}", called(look, *said)) : tr("Another"),
                  .second = elsewhere ? tr("tap for another") : tr("on the map"),
                  .chosen = elsewhere});
  const auto tapped = choices(t, rect, list, list.size(), 20);
  if (!tapped) return;
  if (*tapped == colonies.size())
    view.under_way.panel = WalkPanel::MishapMap;
  else
    view.under_way.mishap_at = colonies[*tapped];
}

std::string mishap_line(const Look& look, const std::optional<engine::ColonyId>& colony,
                        engine::MishapKind kind) {
  if (kind == engine::MishapKind::InhaledVapor) return tr("opens first aid");
  return colony ? tr("at {}: goes on the come-back list", called(look, *colony)) : "";
}

// Back to the walk in its own order, unless the colony was chosen to be set or lifted now.
void back_to_order(const engine::Walk& walk, WalkView& view,
                   const std::optional<engine::ColonyId>& colony) {
  view.under_way.mishap_at.reset();
  if (!view.under_way.chosen || view.under_way.chosen != colony) return;
  const engine::Stop* stop = engine::find_stop(walk, *view.under_way.chosen);
  const bool at_work = stop != nullptr && (stop->phase == engine::Phase::ToDo ||
                                           stop->phase == engine::Phase::UnderVapor);
  if (!at_work) view.under_way.chosen.reset();
}

// The colony whose vaporizer works: the chosen one, else the one that has worked longest.
std::optional<engine::ColonyId> vapor_now(const Look& look, const engine::Walk& walk,
                                          const WalkView& view) {
  std::optional<engine::ColonyId> first;
  for (const engine::Timer& dwell : engine::dwells(walk, look.now)) {
    if (dwell.resting) continue;
    if (view.under_way.chosen == dwell.colony) return dwell.colony;
    if (!first) first = dwell.colony;
  }
  return first;
}

Ask stop_vapor(const Look& look, const engine::Walk& walk, WalkView& view,
               engine::ColonyId colony) {
  UnderWay& now = view.under_way;
  now.noted_since = look.farm.log.size();
  now.mishap_at.reset();
  now.chosen.reset();
  now.panel = WalkPanel::None;
  return engine::Body{engine::VaporHalted{walk.id, colony, engine::HaltWhy::BatteryEmpty}};
}

}  // namespace

Ask walk_mishap(Touch& t, const Rect& room, const Look& look, const engine::Walk& walk,
                WalkView& view) {
  WalkPage page = walk_page(t, room, tr("Problem: where, and what?"));
  const DialogButton back[] = {{tr("Back")}};
  if (walk_footer(t, page.footer, view, back)) {
    view.under_way.panel = WalkPanel::None;
    view.under_way.mishap_at.reset();
  }
  draw_which(t, cut_top(page.room, t.least_h() * 1.25F, t.gap()), look, walk, view);
  const auto working = vapor_now(look, walk, view);
  std::vector<Choice> list;
  if (working)
    list.push_back({.label = tr("Battery empty"),
                    .second = tr("at {}: its clock stops", called(look, *working))});
  const std::size_t mishaps_from = list.size();
  for (std::size_t i = 0; i < engine::enum_names(engine::MishapKind{}).size(); ++i) {
    const auto kind = static_cast<engine::MishapKind>(i);
    list.push_back({.label = capital_word(translated(engine::words(kind))),
                    .second = mishap_line(look, mishap_colony(look, walk, view, kind), kind)});
  }
  const auto tapped = choices(t, page.room, list, 2, 28);
  if (!tapped) return {};
  if (*tapped < mishaps_from) return stop_vapor(look, walk, view, *working);
  const auto kind = static_cast<engine::MishapKind>(*tapped - mishaps_from);
  const auto colony = mishap_colony(look, walk, view, kind);
  view.first_aid = kind == engine::MishapKind::InhaledVapor;
  view.under_way.noted_since = look.farm.log.size();
  back_to_order(walk, view, colony);
  view.under_way.panel = WalkPanel::None;
  return engine::Mishap{walk.id, colony, kind, ""};
}

}  // namespace ui
