#include "engine/guide/advice.h"

#include <algorithm>

namespace engine {
namespace {

std::optional<KitId> free_vaporizer(const Walk& w) {
  for (const KitId v : w.vaporizers)
    if (stands_in(w, v) == nullptr) return v;
  return std::nullopt;
}

// Setting the colony; when every vaporizer stands somewhere, the advice says so.
Advice set(const Walk& w, ColonyId colony, Do what) {
  const auto vaporizer = free_vaporizer(w);
  return {.what = what,
          .colony = colony,
          .vaporizer = vaporizer,
          .obstacle = vaporizer ? Refusal::None : Refusal::VaporizerInUse};
}

// The vapor is ended; which cloth closes the entrance is still to be said.
Advice lift(const Timer& dwell) {
  return {.what = dwell.due() ? Do::Cover : Do::WaitForDwell,
          .colony = dwell.colony,
          .dwell = dwell,
          .timer = dwell,
          .too_short = dwell.too_short()};
}

Advice cover(const Walk& w, const Timer& dwell, const Stamp& now) {
  Advice a = lift(dwell);
  if (const auto cloth = next_cloth(w, now)) {
    a.cloth = cloth->cloth;
    a.cloth_from = cloth->seal;
  }
  return a;
}

Advice uncover(const Timer& seal) {
  return {.what = seal.due() ? Do::Uncover : Do::WaitForSeal,
          .colony = seal.colony,
          .timer = seal,
          .too_short = seal.too_short()};
}

// Enough vapor was given where the dwell was over before it stopped.
bool stopped(const Timer& dwell) { return dwell.resting && !dwell.due(); }

Advice go_on(const Walk& w, const Timer& dwell) {
  return {.what = Do::GoOn,
          .colony = dwell.colony,
          .vaporizer = find_stop(w, dwell.colony)->treatments.back().vaporizer,
          .dwell = dwell,
          .timer = dwell};
}

// A vaporizer that stopped comes before all but a dwell that is over.
std::optional<Advice> stopped_vapor(const Walk& w, const Stamp& now) {
  const std::vector<Timer> dwelling = dwells(w, now);
  if (dwelling.empty() || dwelling.front().due()) return std::nullopt;
  const auto at = std::find_if(dwelling.begin(), dwelling.end(), stopped);
  return at == dwelling.end() ? std::nullopt : std::optional(go_on(w, *at));
}

const Timer* timer_of(const std::vector<Timer>& timers, ColonyId colony) {
  const auto at = std::find_if(timers.begin(), timers.end(),
                               [&](const Timer& t) { return t.colony == colony; });
  return at == timers.end() ? nullptr : &*at;
}

Advice for_chosen(const Walk& w, const Stop& stop, const Stamp& now) {
  switch (stop.phase) {
    case Phase::ToDo:
      return set(w, stop.colony, Do::Set);
    case Phase::UnderVapor: {
      const std::vector<Timer> dwelling = dwells(w, now);
      const Timer& dwell = *timer_of(dwelling, stop.colony);
      return stopped(dwell) ? go_on(w, dwell) : cover(w, dwell, now);
    }
    case Phase::Covered:
      return uncover(*timer_of(seals(w, now), stop.colony));
    case Phase::Done:
    case Phase::PassedOver:
      return set(w, stop.colony, Do::SetAgain);
  }
  return {};
}

// A dwell that is over comes first (the vaporizer is wanted), then the next colony, then what is
// still dwelling, then the cloths that are left. Cloths that are wanted elsewhere are taken with
// the covering there, which saves a step.
Advice in_order(const Walk& w, const Stamp& now) {
  const std::vector<Timer> dwelling = dwells(w, now);
  if (!dwelling.empty() && dwelling.front().due()) return cover(w, dwelling.front(), now);
  const auto next = std::find_if(w.stops.begin(), w.stops.end(),
                                 [](const Stop& s) { return s.phase == Phase::ToDo; });
  if (next != w.stops.end() && free_vaporizer(w)) return set(w, next->colony, Do::Set);
  if (!dwelling.empty()) return cover(w, dwelling.front(), now);
  const std::vector<Timer> sealed = seals(w, now);
  if (!sealed.empty()) return uncover(sealed.front());
  return {.what = Do::Finished};
}

// ---- by the plan ----

// With that very cloth; where it lies elsewhere, its seal there is waited for as well.
Advice cover_with(const Timer& dwell, KitId cloth, const Timer* seal) {
  Advice a = lift(dwell);
  a.cloth = cloth;
  if (seal) {
    a.cloth_from = *seal;
    if (seal->left() > dwell.left()) a.timer = *seal;
  }
  if (!a.timer->due()) a.what = Do::WaitForDwell;
  return a;
}

bool hands_on(std::span<const PlannedVisit> plan) {
  return plan.size() > 1 && plan[0].act == OrderDo::Uncover && plan[1].act == OrderDo::Cover &&
         plan[0].cloth && plan[0].cloth == plan[1].cloth;
}

// Nothing: the walk is not where the plan takes it to be.
std::optional<Advice> by_plan(const Walk& w, const Stamp& now, std::span<const PlannedVisit> plan,
                              Ms hold) {
  const PlannedVisit& first = plan.front();
  if (first.act == OrderDo::Set) {
    Advice a = set(w, first.colony, Do::Set);
    a.hold = hold;
    return a;
  }
  const std::vector<Timer> dwelling = dwells(w, now), sealed = seals(w, now);
  const Timer* seal = timer_of(sealed, first.colony);
  if (first.act == OrderDo::Uncover && !hands_on(plan))
    return seal ? std::optional(uncover(*seal)) : std::nullopt;
  const PlannedVisit& covering = first.act == OrderDo::Cover ? first : plan[1];
  const Timer* dwell = timer_of(dwelling, covering.colony);
  if (dwell == nullptr || !covering.cloth) return std::nullopt;
  const Stop* under = lies_on(w, *covering.cloth);
  return cover_with(*dwell, *covering.cloth, under ? timer_of(sealed, under->colony) : nullptr);
}

std::span<const PlannedVisit> after_first(std::span<const PlannedVisit> plan) {
  return plan.subspan(std::min(plan.size(), std::size_t{hands_on(plan) ? 2U : 1U}));
}

// The event of a step for looking ahead; doses do not matter there.
std::optional<Body> rehearse(const Walk& w, const Advice& a) {
  return carry_out(w, a, Mass{1}, 1, false, std::nullopt, std::nullopt);
}

}  // namespace

Advice what_now(const Walk& w, const Stamp& now, std::optional<ColonyId> chosen,
                std::span<const PlannedVisit> plan, Ms hold) {
  if (w.paused) return {.what = Do::Resume};
  const Stop* stop = chosen ? find_stop(w, *chosen) : nullptr;
  const bool wants_vapor = !stop || stop->treatments.empty();
  if (!protection_complete(w) && wants_vapor && !complete(w))
    return {.what = Do::ConfirmProtection};
  if (stop) return for_chosen(w, *stop, now);
  if (const auto first = stopped_vapor(w, now)) return *first;
  const auto planned = plan.empty() ? std::nullopt : by_plan(w, now, plan, hold);
  return planned ? *planned : in_order(w, now);
}

std::vector<Advice> steps_after(const Walk& walk, const Stamp& now, std::size_t count,
                                std::optional<ColonyId> chosen,
                                std::span<const PlannedVisit> plan) {
  std::vector<Advice> steps;
  Walk w = walk;
  for (const Protection item :
       {Protection::Respirator, Protection::EyeProtection, Protection::Gloves,
        Protection::RinseWater, Protection::NobodyDownwind})
    w.confirmed.insert(item);
  w.paused.reset();
  Stamp at = now;
  if (chosen) plan = {};
  Advice step = what_now(w, at, chosen, plan);
  const Do first = what_now(walk, now, chosen, plan).what;
  if (first == Do::ConfirmProtection || first == Do::Resume) steps.push_back(step);
  while (steps.size() < count && step.what != Do::Finished && step.obstacle == Refusal::None) {
    if (step.timer && !step.timer->due()) at = after(at, step.timer->left());
    const auto body = rehearse(w, step);
    if (!body || why_not(w, *body) != Refusal::None) break;
    w = apply(std::move(w), Event{{}, at, *body});
    plan = after_first(plan);
    step = what_now(w, at, std::nullopt, plan);
    if (step.what != Do::Finished) steps.push_back(step);
  }
  return steps;
}

std::optional<Body> carry_out(const Walk& w, const Advice& a, Mass dose, int brood_boxes,
                              bool supers_on, std::optional<KitId> battery,
                              std::optional<LotId> lot) {
  switch (a.what) {
    case Do::Set:
    case Do::SetAgain:
      if (!a.vaporizer) return std::nullopt;
      return VaporizerSet{w.id, a.colony, *a.vaporizer, battery, lot, dose, brood_boxes, supers_on};
    case Do::Cover:
    case Do::WaitForDwell:
      if (!a.cloth) return ColonyUncovered{w.id, a.colony};
      return ColonyCovered{w.id, a.colony, *a.cloth};
    case Do::Uncover:
    case Do::WaitForSeal:
      return ColonyUncovered{w.id, a.colony};
    case Do::GoOn:
      return VaporResumed{w.id, a.colony};
    case Do::Resume:
      return WalkResumed{w.id};
    case Do::ChangeBattery:
      if (!a.vaporizer || !a.battery) return std::nullopt;
      return BatteryChanged{*a.vaporizer, *a.battery};
    case Do::ConfirmProtection:
    case Do::Finished:
      return std::nullopt;
  }
  return std::nullopt;
}

}  // namespace engine
