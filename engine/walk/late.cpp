#include "engine/walk/late.h"

#include <algorithm>
#include <cassert>

namespace engine {
namespace {

constexpr int kNoon = 12 * 60;

Stop& stop_of(Walk& w, ColonyId colony) {
  const auto at = std::find_if(w.stops.begin(), w.stops.end(),
                               [&](const Stop& s) { return s.colony == colony; });
  if (at != w.stops.end()) return *at;
  w.stops.push_back({.colony = colony});
  return w.stops.back();
}

Treatment treatment_of(const Event& e, const EnteredLate& late) {
  const Stamp at = happened_at(e.stamp, late);
  const Stamp lifted = after(at, late.dwell.value_or(Seconds{0}));
  Treatment t{.entry = e.ref,
              .vaporizer = {},
              .battery = {},
              .lot = late.lot,
              .dose = late.dose,
              .brood_boxes = late.brood_boxes,
              .supers_on = late.supers_on,
              .over_label = over_label(late.rules, late.dose, late.brood_boxes),
              .set_at = at,
              .lifted_at = lifted,
              .cloth = {},
              .uncovered_at = after(lifted, late.seal.value_or(Seconds{0}))};
  if (late.weather) t.flight = late.weather->flight;
  t.late = true;
  t.late_dwell = late.dwell;
  t.late_seal = late.seal;
  return t;
}

void end_seal(Stop& stop, const Stamp& at) {
  stop.treatments.back().uncovered_at = at;
  stop.treatments.back().uncover_inferred = true;
}

}  // namespace

Stamp happened_at(const Stamp& entered, const EnteredLate& late) {
  return stamp_on(late.on, std::chrono::minutes{late.minute.value_or(kNoon)}, entered.zone);
}

Walk begin_past(const Event& e, const EnteredLate& late) {
  Walk w;
  w.id = late.walk;
  w.yard = late.yard;
  w.device = e.ref.device;
  w.opened = happened_at(e.stamp, late);
  w.closed = w.opened;
  w.conditions = late.weather.value_or(Conditions{});
  w.flight = w.conditions.flight;
  w.rules = late.rules;
  w.operator_name = late.operator_name;
  w.operator_address = late.operator_address;
  w.reason = late.reason;
  w.past = true;
  return w;
}

Walk enter_late(Walk walk, const Event& e, const EnteredLate& late) {
  assert(walk.id == late.walk && walk.yard == late.yard);
  Stop& stop = stop_of(walk, late.colony);
  if (late.passed) {
    if (!stop.treatments.empty()) return walk;  // treated all the same
    stop.phase = Phase::PassedOver;
    stop.passed = late.passed;
    stop.pass_note = late.note;
    stop.passed_at = happened_at(e.stamp, late);
    return walk;
  }
  const bool goes_on = stop.phase == Phase::UnderVapor || stop.phase == Phase::Covered;
  if (goes_on && !walk.closed) {
    stop.treatments.insert(std::prev(stop.treatments.end()), treatment_of(e, late));
    return walk;
  }
  if (stop.phase == Phase::Covered) end_seal(stop, happened_at(e.stamp, late));
  stop.treatments.push_back(treatment_of(e, late));
  stop.phase = Phase::Done;
  stop.passed.reset();
  stop.passed_at.reset();
  stop.pass_note.clear();
  assert(well_formed(walk));
  return walk;
}

}  // namespace engine
