#include "engine/walk/walk.h"

#include <algorithm>
#include <cassert>
#include <type_traits>

namespace engine {
namespace {

Stop* find_stop(Walk& walk, ColonyId colony) {
  const auto at = std::find_if(walk.stops.begin(), walk.stops.end(),
                               [&](const Stop& s) { return s.colony == colony; });
  return at == walk.stops.end() ? nullptr : &*at;
}

template <class Container, class Value>
bool holds(const Container& container, const Value& value) {
  return std::find(container.begin(), container.end(), value) != container.end();
}

// ---- why not: one function a kind, one line a reason ----

Refusal impossible(const Walk& w, const ProtectionConfirmed& e) {
  return w.confirmed.count(e.item) != 0 ? Refusal::AlreadyConfirmed : Refusal::None;
}

Refusal impossible(const Walk& w, const VaporizerSet& e) {
  const Stop* stop = find_stop(w, e.colony);
  if (stop == nullptr) return Refusal::ColonyNotInWalk;
  if (!holds(w.vaporizers, e.vaporizer)) return Refusal::NoSuchKit;
  if (e.dose.mg <= 0 || e.brood_boxes < 1) return Refusal::OutOfRange;
  // A record stands against what is asked from here on (KindFacts::stands_against).
  if (!protection_complete(w)) return Refusal::ProtectionMissing;
  if (stop->phase == Phase::UnderVapor) return Refusal::UnderVapor;
  if (stands_in(w, e.vaporizer) != nullptr) return Refusal::VaporizerInUse;
  return Refusal::None;
}

Refusal impossible(const Walk& w, const ColonyCovered& e) {
  const Stop* stop = find_stop(w, e.colony);
  if (stop == nullptr) return Refusal::ColonyNotInWalk;
  if (!holds(w.cloths, e.cloth)) return Refusal::NoSuchKit;
  if (stop->phase != Phase::UnderVapor) return Refusal::NotUnderVapor;
  return Refusal::None;
}

Refusal impossible(const Walk& w, const ColonyUncovered& e) {
  const Stop* stop = find_stop(w, e.colony);
  if (stop == nullptr) return Refusal::ColonyNotInWalk;
  if (stop->phase != Phase::Covered && stop->phase != Phase::UnderVapor) return Refusal::NotCovered;
  return Refusal::None;
}

// Whether a vaporizer stands in it that gives vapor, or that does not.
Refusal with_vaporizer(const Walk& w, ColonyId colony, bool halted) {
  const Stop* stop = find_stop(w, colony);
  if (stop == nullptr) return Refusal::ColonyNotInWalk;
  if (stop->phase != Phase::UnderVapor) return Refusal::NotUnderVapor;
  if (stop->treatments.back().halted.has_value() == halted) return Refusal::None;
  return halted ? Refusal::VaporNotHalted : Refusal::VaporIsHalted;
}

Refusal impossible(const Walk& w, const VaporHalted& e) {
  return with_vaporizer(w, e.colony, false);
}
Refusal impossible(const Walk& w, const VaporResumed& e) {
  return with_vaporizer(w, e.colony, true);
}

Refusal impossible(const Walk& w, const ColonyPassedOver& e) {
  const Stop* stop = find_stop(w, e.colony);
  if (stop == nullptr) return Refusal::ColonyNotInWalk;
  if (stop->phase == Phase::UnderVapor) return Refusal::UnderVapor;
  if (!stop->treatments.empty()) return Refusal::AlreadyTreated;
  return Refusal::None;
}

Refusal of_colony(const Walk& w, const std::optional<ColonyId>& colony) {
  if (colony && find_stop(w, *colony) == nullptr) return Refusal::ColonyNotInWalk;
  return Refusal::None;
}

Refusal impossible(const Walk& w, const BeesFlying& e) { return of_colony(w, e.colony); }
Refusal impossible(const Walk& w, const Mishap& e) { return of_colony(w, e.colony); }
Refusal impossible(const Walk& w, const WalkPaused&) {
  return w.paused ? Refusal::WalkIsPaused : Refusal::None;
}
Refusal impossible(const Walk& w, const WalkResumed&) {
  return w.paused ? Refusal::None : Refusal::NotPaused;
}

// Vapor in a colony must be lifted before the walk can end; a cloth may be forgotten.
Refusal impossible(const Walk& w, const WalkClosed&) {
  for (const Stop& s : w.stops)
    if (s.phase == Phase::UnderVapor) return Refusal::UnderVapor;
  return Refusal::None;
}

// ---- apply ----

// The vaporizer was lifted some time before, and nothing is known to have closed the entrance.
void infer_lift(Stop& stop, const Stamp& at) {
  assert(stop.phase == Phase::UnderVapor && !stop.treatments.empty());
  Treatment& t = stop.treatments.back();
  t.lifted_at = at;
  t.lift_inferred = true;
  t.uncovered_at = at;
  t.uncover_inferred = true;
  stop.phase = Phase::Done;
}

void end_seal(Stop& stop, const Stamp& at, bool inferred) {
  assert(!stop.treatments.empty() && stop.treatments.back().lifted_at);
  stop.treatments.back().uncovered_at = at;
  stop.treatments.back().uncover_inferred = inferred;
  stop.phase = Phase::Done;
}

void apply(Walk& w, const Event&, const ProtectionConfirmed& e) { w.confirmed.insert(e.item); }

void apply(Walk& w, const Event& at, const VaporizerSet& e) {
  if (const Stop* other = stands_in(w, e.vaporizer))
    infer_lift(*find_stop(w, other->colony), at.stamp);
  Stop& stop = *find_stop(w, e.colony);
  if (stop.phase == Phase::UnderVapor) infer_lift(stop, at.stamp);
  if (stop.phase == Phase::Covered) end_seal(stop, at.stamp, true);  // the cloth had to come off
  stop.treatments.push_back({.entry = at.ref,
                             .vaporizer = e.vaporizer,
                             .battery = e.battery,
                             .lot = e.lot,
                             .dose = e.dose,
                             .brood_boxes = e.brood_boxes,
                             .supers_on = e.supers_on,
                             .over_label = over_label(w.rules, e.dose, e.brood_boxes),
                             .set_at = at.stamp,
                             .flight = stop.flight.value_or(w.flight)});
  stop.phase = Phase::UnderVapor;
  stop.passed.reset();
  stop.passed_at.reset();
  stop.pass_note.clear();
}

void apply(Walk& w, const Event& at, const ColonyCovered& e) {
  if (const Stop* other = lies_on(w, e.cloth))
    end_seal(*find_stop(w, other->colony), at.stamp, true);
  Stop& stop = *find_stop(w, e.colony);
  assert(stop.phase == Phase::UnderVapor);
  stop.treatments.back().lifted_at = at.stamp;
  stop.treatments.back().cloth = e.cloth;
  stop.phase = Phase::Covered;
}

void apply(Walk& w, const Event& at, const ColonyUncovered& e) {
  Stop& stop = *find_stop(w, e.colony);
  if (stop.phase == Phase::UnderVapor) stop.treatments.back().lifted_at = at.stamp;
  end_seal(stop, at.stamp, false);
}

void apply(Walk& w, const Event& at, const VaporHalted& e) {
  Treatment& t = find_stop(w, e.colony)->treatments.back();
  t.halted = Halt{at.stamp, e.why};
  ++t.halts;
}

void apply(Walk& w, const Event& at, const VaporResumed& e) {
  Treatment& t = find_stop(w, e.colony)->treatments.back();
  assert(t.halted);
  const Elapsed rest = elapsed(t.halted->since, at.stamp);
  t.rested = {t.rested.length + rest.length, t.rested.sure && rest.sure};
  t.halted.reset();
}

void apply(Walk& w, const Event& at, const ColonyPassedOver& e) {
  Stop& stop = *find_stop(w, e.colony);
  stop.phase = Phase::PassedOver;
  stop.passed = e.reason;
  stop.pass_note = e.note;
  stop.passed_at = at.stamp;
}

void see_flight(Stop& stop, Flight flight) {
  if (stop.phase != Phase::UnderVapor) return;
  Flight& strongest = stop.treatments.back().flight;
  strongest = std::max(strongest, flight);
}

void apply(Walk& w, const Event&, const BeesFlying& e) {
  if (e.colony) {
    Stop& stop = *find_stop(w, *e.colony);
    stop.flight = e.flight;
    see_flight(stop, e.flight);
    return;
  }
  w.flight = e.flight;
  for (Stop& s : w.stops) {
    if (s.phase == Phase::ToDo) s.flight.reset();  // the yard's newer word is worth more
    see_flight(s, e.flight);
  }
}

void apply(Walk& w, const Event& at, const Mishap& e) {
  auto& list = e.colony ? find_stop(w, *e.colony)->mishaps : w.mishaps;
  list.push_back({at.ref, e.what, e.note, at.stamp});
}

void apply(Walk& w, const Event& at, const WalkPaused&) { w.paused = at.stamp; }
void apply(Walk& w, const Event&, const WalkResumed&) { w.paused.reset(); }
void apply(Walk& w, const Event& at, const WalkClosed& e) {
  for (Stop& s : w.stops)
    if (s.phase == Phase::UnderVapor) infer_lift(s, at.stamp);
  w.closed = at.stamp;
  w.closed_why = e.why;
}

// ---- well formed ----

bool phase_agrees(const Stop& s) {
  const Treatment* last = s.treatments.empty() ? nullptr : &s.treatments.back();
  switch (s.phase) {
    case Phase::ToDo:
      return last == nullptr;
    case Phase::PassedOver:
      return last == nullptr && s.passed.has_value();
    case Phase::UnderVapor:
      return last != nullptr && !last->lifted_at && !last->uncovered_at;
    case Phase::Covered:
      return last != nullptr && last->lifted_at && last->cloth && !last->uncovered_at;
    case Phase::Done:
      return last != nullptr && last->lifted_at && last->uncovered_at;
  }
  return false;
}

}  // namespace

Walk begin(const Event& e, const WalkOpened& o) {
  Walk w{.id = o.walk,
         .yard = o.yard,
         .device = e.ref.device,
         .course = o.course,
         .opened = e.stamp,
         .conditions = o.conditions,
         .rules = o.rules,
         .vaporizers = o.vaporizers,
         .cloths = o.cloths,
         .respirator = o.respirator,
         .operator_name = o.operator_name,
         .operator_address = o.operator_address,
         .reason = o.reason,
         .confirmed = {},
         .stops = {},
         .flight = o.conditions.flight,
         .mishaps = {},
         .paused = {},
         .closed = {},
         .planned = o.planned.value_or(std::vector<PlannedVisit>{})};
  for (const ColonyId colony : o.colonies) w.stops.push_back({.colony = colony});
  return w;
}

Refusal why_not(const Walk& walk, const Body& body) {
  return std::visit(
      [&]<class Kind>(const Kind& kind) {
        if constexpr (Kind::kFacts.is_step()) {
          if (walk.closed && Kind::kFacts.walk != InWalk::StepAfterClose)
            return Refusal::WalkIsClosed;
          return impossible(walk, kind);
        } else {
          return Refusal::None;
        }
      },
      body);
}

Walk apply(Walk walk, const Event& e) {
  assert(why_not(walk, e.body) == Refusal::None);
  return apply_record(std::move(walk), e);
}

Walk note_day_sum(Walk walk, ColonyId colony, Mass sum) {
  assert(find_stop(walk, colony) != nullptr && !find_stop(walk, colony)->treatments.empty());
  Treatment& t = find_stop(walk, colony)->treatments.back();
  t.over_label = t.over_label || over_label(walk.rules, sum, t.brood_boxes);
  return walk;
}

Walk infer_uncovered(Walk walk, ColonyId colony, const Stamp& at) {
  Stop* stop = find_stop(walk, colony);
  if (stop != nullptr && stop->phase == Phase::Covered) end_seal(*stop, at, true);
  return walk;
}

Walk apply_record(Walk walk, const Event& e) {
  std::visit(
      [&]<class Kind>(const Kind& kind) {
        if constexpr (Kind::kFacts.is_step()) apply(walk, e, kind);
      },
      e.body);
  assert(well_formed(walk));
  return walk;
}

const Stop* find_stop(const Walk& walk, ColonyId colony) {
  const auto at = std::find_if(walk.stops.begin(), walk.stops.end(),
                               [&](const Stop& s) { return s.colony == colony; });
  return at == walk.stops.end() ? nullptr : &*at;
}

bool protection_complete(const Walk& walk) {
  return walk.confirmed.size() == enum_names(Protection{}).size();
}

bool complete(const Walk& walk) {
  return std::all_of(walk.stops.begin(), walk.stops.end(), [](const Stop& s) {
    return s.phase == Phase::Done || s.phase == Phase::PassedOver;
  });
}

const Stop* stands_in(const Walk& walk, KitId vaporizer) {
  for (const Stop& s : walk.stops)
    if (s.phase == Phase::UnderVapor && s.treatments.back().vaporizer == vaporizer) return &s;
  return nullptr;
}

const Stop* lies_on(const Walk& walk, KitId cloth) {
  for (const Stop& s : walk.stops)
    if (s.phase == Phase::Covered && s.treatments.back().cloth == cloth) return &s;
  return nullptr;
}

bool well_formed(const Walk& walk) {
  std::set<ColonyId> colonies;
  std::set<KitId> in_use;
  for (const Stop& s : walk.stops) {
    if (!colonies.insert(s.colony).second || !phase_agrees(s)) return false;
    if (s.phase == Phase::UnderVapor && !in_use.insert(s.treatments.back().vaporizer).second)
      return false;
    if (s.phase == Phase::Covered && !in_use.insert(*s.treatments.back().cloth).second)
      return false;
  }
  return true;
}

}  // namespace engine
