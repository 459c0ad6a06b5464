#include "engine/walk/timers.h"

#include <algorithm>
#include <cassert>

namespace engine {
namespace {

Timer timer(ColonyId colony, const Stamp& since, const Stamp& now, Seconds goal, Seconds least) {
  const Elapsed gone = elapsed(since, now);
  return {colony, since, gone.length, goal, least, gone.sure};
}

// How long there was vapor until `end`.
Elapsed vapor_until(const Treatment& t, const Stamp& end) {
  const Elapsed whole = elapsed(t.set_at, t.halted ? t.halted->since : end);
  return {std::max(Ms{0}, whole.length - t.rested.length), whole.sure && t.rested.sure};
}

Timer dwell_timer(const Walk& w, const Stop& s, const Stamp& now) {
  const Treatment& t = s.treatments.back();
  const Elapsed gone = vapor_until(t, now);
  return {s.colony,
          t.set_at,
          gone.length,
          w.rules.dwell_goal,
          w.rules.dwell_least,
          gone.sure,
          t.halted.has_value()};
}

Timer seal_timer(const Walk& w, const Stop& s, const Stamp& now) {
  assert(s.phase == Phase::Covered && s.treatments.back().lifted_at);
  return timer(s.colony, *s.treatments.back().lifted_at, now, w.rules.seal_goal,
               w.rules.seal_least);
}

// All goals of one kind are equal, so the longest running one comes due first.
void longest_first(std::vector<Timer>& timers) {
  std::stable_sort(timers.begin(), timers.end(),
                   [](const Timer& a, const Timer& b) { return a.elapsed > b.elapsed; });
}

}  // namespace

std::vector<Timer> dwells(const Walk& w, const Stamp& now) {
  std::vector<Timer> timers;
  for (const Stop& s : w.stops)
    if (s.phase == Phase::UnderVapor) timers.push_back(dwell_timer(w, s, now));
  longest_first(timers);
  return timers;
}

std::vector<Timer> seals(const Walk& w, const Stamp& now) {
  std::vector<Timer> timers;
  for (const Stop& s : w.stops)
    if (s.phase == Phase::Covered) timers.push_back(seal_timer(w, s, now));
  longest_first(timers);
  return timers;
}

std::vector<ClothPlace> cloth_places(const Walk& w, const Stamp& now) {
  std::vector<ClothPlace> places;
  for (const KitId cloth : w.cloths) {
    const Stop* stop = lies_on(w, cloth);
    places.push_back({cloth, stop ? std::optional(seal_timer(w, *stop, now)) : std::nullopt});
  }
  return places;
}

std::optional<ClothPlace> next_cloth(const Walk& w, const Stamp& now) {
  const std::vector<ClothPlace> places = cloth_places(w, now);
  // Free before lying, then the longest lying; max_element keeps the first of equals.
  const auto worse = [](const ClothPlace& a, const ClothPlace& b) {
    if (!a.seal) return false;
    if (!b.seal) return true;
    return a.seal->elapsed < b.seal->elapsed;
  };
  const auto best = std::max_element(places.begin(), places.end(), worse);
  return best == places.end() ? std::nullopt : std::optional(*best);
}

std::optional<Ms> until_next_due(const Walk& w, const Stamp& now) {
  std::optional<Ms> soonest;
  const auto look = [&](const std::vector<Timer>& timers) {
    for (const Timer& t : timers)
      if (!t.due() && !t.resting && (!soonest || t.left() < *soonest)) soonest = t.left();
  };
  look(dwells(w, now));
  look(seals(w, now));
  return soonest;
}

std::optional<Elapsed> dwell_of(const Treatment& t) {
  if (t.late) return t.late_dwell ? std::optional(Elapsed{*t.late_dwell}) : std::nullopt;
  if (!t.lifted_at) return std::nullopt;
  return vapor_until(t, *t.lifted_at);
}

std::optional<Elapsed> seal_of(const Treatment& t) {
  if (t.late) return t.late_seal ? std::optional(Elapsed{*t.late_seal}) : std::nullopt;
  if (!t.lifted_at || !t.uncovered_at) return std::nullopt;
  return elapsed(*t.lifted_at, *t.uncovered_at);
}

}  // namespace engine
