// What goes wrong on a walk, one panel each: pass over, bees flying, strike last; and
// what the label profile cautions.
#include "ui/screens/walk/panels/walk_panels.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>

#include "engine/language/tr.h"
#include "engine/words/words.h"
#include "ui/screens/base/layout.h"
#include "ui/screens/walk/now/walk_compare.h"
#include "ui/screens/walk/now/walk_map.h"
#include "ui/screens/walk/panels/walk_close.h"
#include "ui/screens/walk/panels/walk_dose.h"
#include "ui/screens/walk/panels/walk_menu.h"
#include "ui/screens/walk/panels/walk_mishap.h"
#include "ui/screens/walk/panels/walk_shut.h"
#include "ui/screens/walk/plan/walk_pages.h"
#include "ui/screens/walk/plan/walk_words.h"

namespace ui {

using engine::to_translate;
using engine::tr;
using engine::translated;
namespace {

// Closes the panel when "Back" was tapped.
bool go_back(Touch& t, const WalkPage& page, WalkView& view) {
  const DialogButton back[] = {{tr("Back")}};
  if (walk_footer(t, page.footer, view, back) != 0) return false;
  view.under_way.panel = WalkPanel::None;
  return true;
}

// Closes the panel and hands the event on; the walk then says that it was saved.
Ask done(const Look& look, WalkView& view, engine::Body body) {
  view.under_way.noted_since = look.farm.log.size();
  view.under_way.panel = WalkPanel::None;
  return body;
}

// ---- pass over ----

// The chosen colony, else the one that would be set next: what is under vapor cannot be left out.
std::optional<engine::ColonyId> to_pass(const Look& look, const engine::Walk& walk,
                                        const WalkView& view) {
  return view.under_way.chosen ? view.under_way.chosen : next_to_set(look, walk, view.under_way);
}

Ask pass_over(Touch& t, const Rect& room, const Look& look, const engine::Walk& walk,
              WalkView& view) {
  const auto colony = to_pass(look, walk, view);
  WalkPage page =
      walk_page(t, room, colony ? tr("Skip {}: why?", called(look, *colony)) : tr("Skip"));
  if (go_back(t, page, view)) return {};
  engine::ColonyPassedOver passed{.walk = walk.id, .colony = colony.value_or(engine::ColonyId{})};
  const engine::Refusal refusal = why_not(look, passed);
  if (refusal != engine::Refusal::None)
    notice(t, page.room,
           colony ? translated(engine::sentence(refusal))
                  : tr("No colony is left that could be skipped."),
           Mark::Cross, Surface::Muted);
  std::vector<Choice> list;
  for (std::size_t i = 0; i < engine::enum_names(engine::PassReason{}).size(); ++i)
    list.push_back(
        {.label = capital_word(translated(engine::words(static_cast<engine::PassReason>(i)))),
         .enabled = refusal == engine::Refusal::None});
  const auto tapped = choices(t, page.room, list, 2);
  if (!tapped) return {};
  passed.reason = static_cast<engine::PassReason>(*tapped);
  view.under_way.chosen.reset();
  return done(look, view, passed);
}

// ---- bees flying ----

constexpr std::array<const char*, 3> kFlights{to_translate("none"), to_translate("some"),
                                              to_translate("heavy")};

std::optional<engine::Flight> flight_row(Touch& t, Rect rect, const std::string& title,
                                         const std::string& prefix, engine::Flight now) {
  text(t, cut_top(rect, line_height(t, Size::Large), t.mm(1.5F)), title, {.size = Size::Large});
  std::vector<Choice> list;
  for (std::size_t i = 0; i < kFlights.size(); ++i)
    list.push_back({.label = fmt::format("{}: {}", prefix, translated(kFlights[i])),
                    .chosen = static_cast<std::size_t>(now) == i});
  const auto tapped = choices(t, rect, list, 3, 30);
  return tapped ? std::optional(static_cast<engine::Flight>(*tapped)) : std::nullopt;
}

Ask flying(Touch& t, const Rect& room, const Look& look, const engine::Walk& walk, WalkView& view) {
  WalkPage page = walk_page(t, room, tr("Bees flying"));
  if (go_back(t, page, view)) return {};
  notice(t, page.room,
         tr("Vapor reaches only bees that are home. Heavy flight puts a colony on the come-back "
            "list."),
         Mark::Dot, Surface::Panel);
  const auto colony = subject(look, walk, view.under_way);
  const std::vector<Rect> halves = rows(page.room, 2, t.gap());
  if (colony) {
    const engine::Flight seen = engine::find_stop(walk, *colony)->flight.value_or(walk.flight);
    const std::string name = called(look, *colony);
    if (const auto f = flight_row(t, halves[0], tr("At colony {}", name), name, seen))
      return done(look, view, engine::BeesFlying{walk.id, colony, *f});
  }
  if (const auto f =
          flight_row(t, halves[1], tr("In the whole yard, from now on"), tr("Yard"), walk.flight))
    return done(look, view, engine::BeesFlying{walk.id, std::nullopt, *f});
  return {};
}

// ---- cautions ----

void cautions(Touch& t, const Rect& room, const Look& look, const engine::Walk& walk,
              WalkView& view) {
  WalkPage page = walk_page(t, room, tr("Cautions of the label profile"));
  if (go_back(t, page, view)) return;
  notice(t, page.room,
         tr("Your label in hand and local rules decide; a profile only repeats a label."),
         Mark::Warning, Surface::Warning);
  page.room.y += t.mm(1);
  page.room.h -= t.mm(1);
  const auto seen = std::find_if(look.labels.begin(), look.labels.end(),
                                 [&](const LabelSeen& l) { return l.id == walk.rules.profile; });
  if (seen == look.labels.end() || seen->cautions.empty()) {
    notice(t, page.room, tr("The profile of this walk has no cautions: read those on your label."),
           Mark::Dot, Surface::Panel);
    return;
  }
  paragraphs(t, page.room, view.under_way.list_page, seen->cautions);
}

// ---- strike last ----

// The journal keeps them in English, as it does all words of its own.
constexpr std::array<const char*, 4> kStrikeReasons{
    to_translate("Wrong button"), to_translate("Wrong colony"), to_translate("Wrong dose"),
    to_translate("Did not happen")};

Ask strike_last(Touch& t, const Rect& room, const Look& look, WalkView& view) {
  WalkPage page = walk_page(t, room, tr("Undo the last entry"));
  if (go_back(t, page, view)) return {};
  const engine::EntryHandle last = engine::last_entry(look.farm, look.device);
  if (last == nullptr) {
    notice(t, page.room, tr("There is no entry to strike."), Mark::Cross, Surface::Muted);
    return {};
  }
  const auto reason = static_cast<std::size_t>(view.under_way.strike_reason);
  const engine::EntryStruck struck{last->event.ref, kStrikeReasons[reason % 4]};
  const Tried& tried = view.under_way.tried.of(look, struck);
  if (!tried.fall.empty())
    notice(t, page.room, tr("Striking this also drops: {}", tried.fall) + ".", Mark::Warning,
           Surface::Warning);
  Rect box = cut_top(page.room, t.mm(24), t.gap());
  t.fill(box, Surface::Panel, t.mm(0.4F));
  text(t, inset(box, t.mm(3), t.mm(1.5F)),
       fmt::format("{}  {}", engine::clock_time(last->event.stamp),
                   engine::describe(last->event.body, look.farm)),
       {.size = Size::Large});
  const Rect strike = cut_bottom(page.room, t.least_h() * 1.4F, t.gap());
  text(t, cut_top(page.room, line_height(t, Size::Body), t.mm(1)),
       tr("Why? It stays in the register as struck, with this reason."), {.quiet = true});
  std::vector<Choice> list;
  for (std::size_t i = 0; i < kStrikeReasons.size(); ++i)
    list.push_back({.label = translated(kStrikeReasons[i]),
                    .chosen = view.under_way.strike_reason == static_cast<int>(i)});
  if (const auto tapped = choices(t, page.room, list, 2, 20))
    view.under_way.strike_reason = static_cast<int>(*tapped);
  const bool possible = tried.refusal == engine::Refusal::None;
  if (!hold_button(t, strike, tr("Undo it"),
                   {.enabled = possible, .surface = Surface::Warning, .large = true}))
    return {};
  view.under_way.chosen.reset();
  return done(look, view, struck);
}

}  // namespace

Ask walk_panel(Touch& t, const Rect& room, const Look& look, const engine::Walk& walk,
               WalkView& view) {
  switch (view.under_way.panel) {
    case WalkPanel::Menu:
      return walk_menu(t, room, look, view);
    case WalkPanel::PassOver:
      return pass_over(t, room, look, walk, view);
    case WalkPanel::Flying:
      return flying(t, room, look, walk, view);
    case WalkPanel::Mishap:
      return walk_mishap(t, room, look, walk, view);
    case WalkPanel::StrikeLast:
      return strike_last(t, room, look, view);
    case WalkPanel::Cautions:
      return cautions(t, room, look, walk, view), Ask{};
    case WalkPanel::Plan:
      return walk_plan_now(t, room, look, walk, view), Ask{};
    case WalkPanel::Map:
    case WalkPanel::MishapMap:
      return walk_map(t, room, look, walk, view);
    case WalkPanel::Dose:
    case WalkPanel::DoseKeys:
      return walk_dose(t, room, look, walk, view);
    case WalkPanel::Close:
      return walk_close(t, room, look, walk, view);
    case WalkPanel::StillShut:
      return walk_shut(t, room, look, walk, view);
    case WalkPanel::None:
      return {};
  }
  return {};
}

}  // namespace ui
