#include "ui/screens/walk/plan/walk_words.h"

#include <fmt/format.h>

#include <algorithm>

#include "engine/kit/upkeep.h"
#include "engine/language/tr.h"
#include "engine/words/lookup.h"
#include "engine/words/words.h"
#include "ui/screens/answers/answers.h"
#include "ui/screens/walk/plan/walk_pages.h"

namespace ui {

using engine::tr;
using engine::translated;

using engine::Do;

bool noted_flying(const engine::Walk& walk, engine::ColonyId colony) {
  const engine::Stop* stop = engine::find_stop(walk, colony);
  return stop != nullptr && stop->phase == engine::Phase::ToDo &&
         stop->flight.value_or(engine::Flight::None) != engine::Flight::None;
}

namespace {

bool sets(Do what) { return what == Do::Set || what == Do::SetAgain; }
bool covers(Do what) { return what == Do::Cover || what == Do::WaitForDwell; }
bool uncovers(Do what) { return what == Do::Uncover || what == Do::WaitForSeal; }

std::string kit(const Look& look, engine::KitId item) { return kit_shown(look, item); }

const engine::Colony* colony_in(const Look& look, engine::ColonyId id) {
  const auto at = look.farm.colonies.find(id);
  return at == look.farm.colonies.end() ? nullptr : &at->second;
}

// ---- reasons to hold ----

std::string careful_set(const Look& look, const engine::Walk& walk, const Step& s) {
  std::string why;
  const engine::Stop* stop = engine::find_stop(walk, s.advice.colony);
  const auto given = engine::vapor_given_on(look.farm, s.advice.colony, look.today());
  if (given)
    why = tr("Got {} today already, last at {}. ", shown(look, given->sum),
             engine::clock_time(given->last));
  else if (stop != nullptr && !stop->treatments.empty())
    why = tr("Treated in this walk already. ");  // before midnight
  const engine::Mass sum = given ? given->sum + s.dose : s.dose;
  if (engine::over_label(walk.rules, sum, s.brood_boxes)) {
    const std::string most = shown(look, *engine::label_most(walk.rules, s.brood_boxes));
    why += given ? tr("Together over the label: at most {}. ", most)
                 : tr("Over the label: at most {}. ", most);
  }
  if (s.supers_on && walk.rules.supers == engine::Supers::Forbidden)
    why += tr("Honey supers are on: the label forbids it. ");
  if (s.supers_on && walk.rules.supers == engine::Supers::Unknown)
    why += tr("Honey supers are on: check your label. ");
  if (noted_flying(walk, s.advice.colony))
    why += tr("Bees fly here: vapor reaches only those at home. ");
  return why;
}

// Too early for the dwell: the cloth is a question of later.
std::string careful_cover(const Look& look, const engine::Advice& a) {
  if (a.timer && !a.timer->sure) return tr("Clock was changed: check yourself. ");
  if (a.too_short)
    return tr("Short dwell: {} of at least {}. ", engine::minutes_seconds(a.dwell->elapsed),
              engine::minutes_seconds(a.dwell->least));
  if (!a.cloth_from || !a.cloth_from->too_short()) return {};
  return tr("Short seal: {} has been closed {} of at least {}. ",
            called(look, a.cloth_from->colony), engine::minutes_seconds(a.cloth_from->elapsed),
            engine::minutes_seconds(a.cloth_from->least));
}

std::string careful_uncover(const engine::Advice& a) {
  if (a.timer && !a.timer->sure) return tr("Clock was changed: check yourself. ");
  if (!a.too_short) return {};
  return tr("Short seal: {} of at least {}. ", engine::minutes_seconds(a.timer->elapsed),
            engine::minutes_seconds(a.timer->least));
}

std::string careful(const Look& look, const engine::Walk& walk, const Step& s) {
  std::string why;
  if (sets(s.advice.what)) why = careful_set(look, walk, s);
  if (covers(s.advice.what)) why = careful_cover(look, s.advice);
  if (uncovers(s.advice.what)) why = careful_uncover(s.advice);
  if (!why.empty() && why.back() == ' ') why.pop_back();
  return why;
}

// ---- the line under the sentence ----

std::string set_line(const Look& look, const engine::Walk& walk, const Step& s) {
  if (s.advice.hold > engine::Ms{0})
    return tr("no cloth is free before its vapor has done its work");
  std::string line = translated(engine::words(walk.rules.basis));
  if (const auto pure = engine::dihydrate(walk.rules, s.dose))
    line += tr(" ({} anhydrous)", shown(look, engine::anhydrous(*pure)));
  if (s.advice.vaporizer) line += ", " + kit(look, *s.advice.vaporizer);
  return line;
}

// How long the plan will leave this colony closed.
std::string seal_words(const Look& look, const engine::Walk& walk, const engine::Advice& a) {
  const engine::Lead* led = lead(look, walk);
  const auto seal = led ? engine::seal_to_be(walk, *led, a.colony) : std::nullopt;
  return seal ? tr("; stays on {}", engine::minutes_seconds(*seal)) : "";
}

std::string cover_line(const Look& look, const engine::Walk& walk, const Step& s) {
  const engine::Advice& a = s.advice;
  if (!a.cloth) return tr("no cloth on this walk: the entrance stays open");
  const std::string stays = seal_words(look, walk, a);
  if (!a.cloth_from) return tr("{}, which is free{}", kit(look, *a.cloth), stays);
  return tr("{}, from {}, closed {}{}", kit(look, *a.cloth), called(look, a.cloth_from->colony),
            engine::minutes_seconds(a.cloth_from->elapsed), stays);
}

// How long dwells are, learned from the keeper's own; then what comes.
std::string wait_line(const Look& look, const engine::Walk& walk, const Step& s) {
  const std::string then = tr("then {}", cover_line(look, walk, s));
  if (s.advice.dwell->due()) return then;
  return fmt::format("{}; {}", engine::words(dwell_forecast(look, walk, s.advice.colony)), then);
}

std::string uncover_line(const Look& look, const engine::Walk& walk, const engine::Advice& a) {
  std::string line;
  const engine::Stop* stop = engine::find_stop(walk, a.colony);
  if (stop != nullptr && !stop->treatments.empty() && stop->treatments.back().cloth)
    line = kit(look, *stop->treatments.back().cloth) + ", ";
  if (a.timer)
    line += tr("closed {}{}", a.timer->sure ? "" : tr("at least "),
               engine::minutes_seconds(a.timer->elapsed));
  return line;
}

std::string wait_sentence(const std::string& colony, const std::string& act,
                          const engine::Timer& t) {
  if (!t.sure) return tr("{}: check it yourself", colony);
  return tr("{}: {} in {}", colony, act, to_go(t.left()));
}

}  // namespace

std::string to_go(engine::Ms left) {
  return engine::minutes_seconds(std::chrono::ceil<engine::Seconds>(left));
}

std::string shown(const Look& look, engine::Mass m) {
  if (look.farm.setup.mass_unit == engine::MassUnit::Ounce)
    return engine::show(m, engine::MassUnit::Ounce);
  // To the hundredth of a gram: no field scale shows more.
  const std::int64_t rounded = (m.mg + (m.mg >= 0 ? 5 : -5)) / 10 * 10;
  return engine::show(engine::Mass{rounded}, engine::MassUnit::Gram);
}

std::string kit_shown(const Look& look, engine::KitId item) {
  const std::string english = engine::kit_called(look.farm, item);
  const auto at = look.farm.kit.find(item);
  if (at == look.farm.kit.end()) return english;
  const std::string sort = engine::words(at->second.sort);
  if (!english.starts_with(sort + " ")) return english;
  return translated(sort) + english.substr(sort.size());
}

std::string called(const Look& look, engine::ColonyId colony) {
  return engine::colony_called(look.farm, colony);
}

engine::Mass dose_for(const Look& look, const engine::Walk& walk, const UnderWay& view,
                      engine::ColonyId colony) {
  if (view.dose && view.dose_for == colony) return *view.dose;
  return engine::prompted_dose(look.farm, walk.rules, colony);
}

engine::DwellForecast dwell_forecast(const Look& look, const engine::Walk& walk,
                                     engine::ColonyId colony) {
  const engine::Treatment& t = engine::find_stop(walk, colony)->treatments.back();
  return engine::forecast_dwell(learned(look).dwell, walk, t.dose, t.vaporizer);
}

std::span<const engine::PlannedVisit> planned(const Look& look, const engine::Walk& walk) {
  const engine::Lead* led = lead(look, walk);
  return led ? std::span(led->visits) : std::span<const engine::PlannedVisit>{};
}

engine::Advice advice_now(const Look& look, const engine::Walk& walk,
                          std::optional<engine::ColonyId> chosen) {
  const engine::Lead* led = lead(look, walk);
  if (led == nullptr) return engine::what_now(walk, look.now, chosen);
  return engine::what_now(walk, look.now, chosen, led->visits, led->hold);
}

namespace {

// Before the next setting, when the charge may not last through it and another one is at hand.
void ask_for_battery(const Look& look, const engine::Walk& walk, const UnderWay& view, Step& s) {
  engine::Advice& a = s.advice;
  if (a.what != Do::Set || !a.vaporizer || view.chosen) return;
  const engine::BatteryAdvice& b =
      look.answers.battery_advice(look.farm, walk, *a.vaporizer, a.colony);
  if (!b.change_now || view.battery_kept == b.battery) return;
  s.battery = b;
  a.what = Do::ChangeBattery;
  a.battery = b.spare;
}

// The empty battery of a vaporizer that stopped comes out, where a charged one is at hand.
void go_on_with_battery(const Look& look, const engine::Walk& walk, Step& s) {
  engine::Advice& a = s.advice;
  const engine::Treatment& t = engine::find_stop(walk, a.colony)->treatments.back();
  if (!t.halted || t.halted->why != engine::HaltWhy::BatteryEmpty) return;
  a.battery = look.answers.battery_advice(look.farm, walk, *a.vaporizer, a.colony).spare;
  if (a.battery) s.before = engine::BatteryChanged{*a.vaporizer, *a.battery, true};
}

// What is to be closed before the vapor comes, and stays closed until the cloth is off.
std::string leaks_to_close(const Look& look, const engine::Advice& a) {
  const engine::Colony* colony = colony_in(look, a.colony);
  if (colony == nullptr || colony->leaks.empty() || !(sets(a.what) || covers(a.what))) return {};
  std::string list;
  for (const engine::Leak leak : colony->leaks)
    list += (list.empty() ? "" : ", ") + translated(engine::words(leak));
  return sets(a.what) ? tr("Close first at {}: {}.", colony->name, list)
                      : tr("Still closed at {}: {}.", colony->name, list);
}

// A dwell beyond all others: something is the matter with the heat.
std::string trouble(const Look& look, const engine::Walk& walk) {
  for (const engine::Timer& d : engine::dwells(walk, look.now)) {
    if (!d.sure || d.resting ||
        engine::waits_for_cloth(walk, engine::find_stop(walk, d.colony)->treatments.back()))
      continue;
    const engine::DwellForecast f = dwell_forecast(look, walk, d.colony);
    if (engine::dwell_stage(f, d) != engine::DwellStage::NotRecovering) continue;
    return fmt::format("{}: {} {}", called(look, d.colony), engine::not_recovering_words(f),
                       translated(engine::not_recovering_caution()));
  }
  return {};
}

}  // namespace

Step step_now(const Look& look, const engine::Walk& walk, const UnderWay& view) {
  Step s{.advice = advice_now(look, walk, view.chosen)};
  ask_for_battery(look, walk, view, s);
  const engine::Colony* colony = colony_in(look, s.advice.colony);
  std::optional<engine::KitId> battery;
  std::optional<engine::LotId> lot;
  if (colony != nullptr && sets(s.advice.what)) {
    s.brood_boxes = colony->brood_boxes;
    s.supers_on = colony->supers_on;
    s.dose = dose_for(look, walk, view, colony->id);
    if (const engine::Lot* next = engine::next_lot(look.farm, look.today())) lot = next->id;
    if (s.advice.vaporizer) battery = look.farm.kit.at(*s.advice.vaporizer).battery;
  }
  s.careful = careful(look, walk, s);
  s.trouble = trouble(look, walk);
  if (s.trouble.empty()) s.trouble = leaks_to_close(look, s.advice);
  if (s.advice.what == Do::GoOn) go_on_with_battery(look, walk, s);
  s.refusal = s.advice.obstacle;
  if (s.refusal != engine::Refusal::None) return s;
  s.body = engine::carry_out(walk, s.advice, s.dose, s.brood_boxes, s.supers_on, battery, lot);
  if (s.body) s.refusal = why_not(look, *s.body);
  return s;
}

std::string sentence(const Look& look, const engine::Walk& walk, const Step& s) {
  const engine::Advice& a = s.advice;
  const std::string colony = called(look, a.colony);
  switch (a.what) {
    case Do::Set:
      if (a.hold > engine::Ms{0})
        return tr("{}: wait {}, then set {}", colony, to_go(a.hold), shown(look, s.dose));
      return tr("{}: {}, set in the entrance", colony, shown(look, s.dose));
    case Do::SetAgain:
      return tr("{}: set again, {}", colony, shown(look, s.dose));
    case Do::Cover:
      if (!a.cloth) return tr("{}: lift, leave it open", colony);
      return tr("{}: lift, close with {}", colony, kit(look, *a.cloth));
    case Do::WaitForDwell:
      if (a.cloth_from && a.timer->colony != a.colony && a.timer->sure)
        return tr("{}: cloth from {} in {}", colony, called(look, a.timer->colony),
                  to_go(a.timer->left()));
      return wait_sentence(colony, tr("lift"), *a.timer);
    case Do::Uncover:
      return tr("{}: take the cloth off", colony);
    case Do::WaitForSeal:
      return wait_sentence(colony, tr("open"), *a.timer);
    case Do::Resume:
      return tr("The walk is paused since {}", engine::clock_time(*walk.paused));
    case Do::ConfirmProtection:
      return tr("Confirm the protection first");
    case Do::Finished:
      return tr("Every colony has had its turn");
    case Do::GoOn:
      return tr("{}: {} of vapor so far, then it stopped", colony,
                engine::minutes_seconds(a.dwell->elapsed));
    case Do::ChangeBattery:
      return tr("Before {}: change the battery of {}", colony, kit(look, *a.vaporizer));
  }
  return {};
}

namespace {

// What the register will say of either way.
std::string go_on_line(const Look& look, const engine::Advice& a) {
  const std::string then =
      tr("Going on, the register has one treatment whose vapor rested. Done again, it has two, and "
         "the first is not enough.");
  return a.battery ? tr("Put {} in. {}", kit(look, *a.battery), then) : then;
}

}  // namespace

std::string under_line(const Look& look, const engine::Walk& walk, const Step& s) {
  if (sets(s.advice.what)) return set_line(look, walk, s);
  if (s.advice.what == Do::WaitForDwell) return wait_line(look, walk, s);
  if (s.advice.what == Do::Cover) return cover_line(look, walk, s);
  if (s.advice.what == Do::ChangeBattery) return s.battery.line;
  if (s.advice.what == Do::GoOn) return go_on_line(look, s.advice);
  if (uncovers(s.advice.what)) return uncover_line(look, walk, s.advice);
  if (s.advice.what == Do::Resume) return tr("The clocks keep running.");
  return {};
}

std::string action_label(const Look& look, const Step& s) {
  const std::string colony = called(look, s.advice.colony);
  if (sets(s.advice.what)) return tr("{} is set", colony);
  if (covers(s.advice.what))
    return s.advice.cloth ? tr("{} is covered", colony) : tr("{} is lifted", colony);
  if (uncovers(s.advice.what)) return tr("Cloth off {}", colony);
  if (s.advice.what == Do::GoOn) return tr("Go on with {}", colony);
  if (s.advice.what == Do::ChangeBattery)
    return tr("{} is in", capital_word(kit(look, *s.advice.battery)));
  return s.advice.what == Do::Resume ? tr("Resume the walk") : tr("Nothing to do");
}

std::string action_line(const Step& s) {
  switch (s.advice.what) {
    case Do::Set:
    case Do::SetAgain:
      return tr("tap when the vaporizer stands in the entrance");
    case Do::Cover:
    case Do::WaitForDwell:
      return s.advice.cloth ? tr("tap when it is lifted and the cloth lies")
                            : tr("tap when it is lifted");
    case Do::Uncover:
    case Do::WaitForSeal:
      return tr("tap when the cloth is off");
    case Do::ChangeBattery:
      return tr("tap when it is in");
    case Do::GoOn:
      return tr("tap when it gives vapor again");
    default:
      return {};
  }
}

std::string short_step(const Look& look, const engine::Walk& walk, const engine::Advice& a,
                       bool brief) {
  const std::string colony = called(look, a.colony);
  if (sets(a.what))
    return tr("Set {}, {}", colony,
              shown(look, engine::prompted_dose(look.farm, walk.rules, a.colony)));
  if (covers(a.what)) {
    if (!a.cloth) return tr("Lift from {}", colony);
    if (!a.cloth_from || brief) return tr("Cover {}", colony);
    return tr("Cover {}, cloth from {}", colony, called(look, a.cloth_from->colony));
  }
  if (uncovers(a.what)) return tr("Cloth off {}", colony);
  if (a.what == Do::ChangeBattery) return tr("Change the battery");
  if (a.what == Do::GoOn) return tr("Go on with {}", colony);
  return a.what == Do::ConfirmProtection ? tr("Confirm the protection") : tr("Resume the walk");
}

std::optional<engine::ColonyId> next_to_set(const Look& look, const engine::Walk& walk,
                                            const UnderWay& view) {
  const engine::Advice a = advice_now(look, walk, view.chosen);
  if (sets(a.what)) return a.colony;
  const auto at = std::find_if(walk.stops.begin(), walk.stops.end(), [](const engine::Stop& s) {
    return s.phase == engine::Phase::ToDo;
  });
  return at == walk.stops.end() ? std::nullopt : std::optional(at->colony);
}

std::optional<engine::ColonyId> subject(const Look& look, const engine::Walk& walk,
                                        const UnderWay& view) {
  if (view.chosen && engine::find_stop(walk, *view.chosen) != nullptr) return view.chosen;
  const engine::Advice a = advice_now(look, walk);
  if (engine::find_stop(walk, a.colony) != nullptr) return a.colony;
  return next_to_set(look, walk, view);
}

std::size_t had_their_turn(const engine::Walk& walk) {
  return static_cast<std::size_t>(
      std::count_if(walk.stops.begin(), walk.stops.end(), [](const engine::Stop& s) {
        return s.phase != engine::Phase::ToDo && s.phase != engine::Phase::UnderVapor;
      }));
}

}  // namespace ui
