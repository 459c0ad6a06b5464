// What speaks against opening a walk, its steps, and what is entered afterwards.
#include <algorithm>

#include "engine/farm/why_not_kinds.h"

namespace engine {
namespace {

Refusal colonies_to_walk(const Farm& f, const std::vector<ColonyId>& colonies) {
  if (const Refusal r = all_known(f, colonies); r != Refusal::None) return r;
  for (const ColonyId id : colonies)
    if (const Refusal r = colony_lost(f, id); r != Refusal::None) return r;
  return Refusal::None;
}

Refusal kit_to_carry(const Farm& f, const WalkOpened& e) {
  if (e.vaporizers.empty()) return Refusal::NoVaporizer;
  for (const KitId id : e.vaporizers)
    if (const Refusal r = kit_of_sort(f, id, KitSort::Vaporizer); r != Refusal::None) return r;
  for (const KitId id : e.cloths)
    if (const Refusal r = kit_of_sort(f, id, KitSort::Cloth); r != Refusal::None) return r;
  if (e.respirator) return kit_of_sort(f, *e.respirator, KitSort::Respirator);
  return Refusal::None;
}

bool plan_fits(const WalkOpened& o) {
  const auto known = [](const auto& list, const auto& id) {
    return std::find(list.begin(), list.end(), id) != list.end();
  };
  return !o.planned ||
         std::all_of(o.planned->begin(), o.planned->end(), [&](const PlannedVisit& v) {
           const bool timed = v.start >= Seconds{0} && v.end >= v.start;
           return timed && known(o.colonies, v.colony) && (!v.cloth || known(o.cloths, *v.cloth));
         });
}

}  // namespace

// The device that walks comes with the event, so this one is asked for by why_it_does_not_fit.
Refusal why_not_open(const Farm& f, const Event& e, const WalkOpened& o) {
  if (o.walk.empty() || find(f.walks, o.walk)) return Refusal::AlreadyThere;
  if (const Refusal r = yard_known(f, o.yard); r != Refusal::None) return r;
  if (o.colonies.empty()) return Refusal::NothingToTreat;
  if (!each_once(o.colonies)) return Refusal::AlreadyThere;
  if (const Refusal r = kit_to_carry(f, o); r != Refusal::None) return r;
  if (!what_is_wrong(o.rules).empty() || !plan_fits(o)) return Refusal::OutOfRange;
  if (const Refusal r = colonies_to_walk(f, o.colonies); r != Refusal::None) return r;
  if (const Refusal r = yard_lost(f, o.yard); r != Refusal::None) return r;
  if (o.course && find(f.courses, *o.course) == nullptr) return Refusal::NoSuchCourse;
  const WalkId* before = walk_before(f, e.ref.device);
  if (before && !complete(f.walks.at(*before))) return Refusal::AnotherWalkUnderWay;
  return Refusal::None;
}

Refusal why_not_in_walk(const Farm& f, WalkId id, const Body& step) {
  const Walk* walk = find(f.walks, id);
  return walk == nullptr ? Refusal::NoSuchWalk : why_not(*walk, step);
}

Refusal why_not(const Farm& f, const VaporizerSet& e) {
  if (find(f.walks, e.walk) == nullptr) return Refusal::NoSuchWalk;
  if (e.battery)
    if (const Refusal r = kit_of_sort(f, *e.battery, KitSort::Battery); r != Refusal::None)
      return r;
  if (e.lot && find(f.lots, *e.lot) == nullptr) return Refusal::NoSuchLot;
  if (!boxes_in_range(e.brood_boxes)) return Refusal::OutOfRange;
  return why_not_in_walk(f, e.walk, Body{e});
}

namespace {

bool length_in_range(const std::optional<Seconds>& s) {
  return !s || (*s >= Seconds{0} && *s <= Seconds{86'400});
}

Refusal numbers_of(const Farm& f, const EnteredLate& e) {
  if (!e.on.ok() || !minute_in_range(e.minute)) return Refusal::OutOfRange;
  if (!length_in_range(e.dwell) || !length_in_range(e.seal)) return Refusal::OutOfRange;
  if (!boxes_in_range(e.brood_boxes) || !what_is_wrong(e.rules).empty()) return Refusal::OutOfRange;
  if (e.passed ? e.dose.mg != 0 : e.dose.mg <= 0) return Refusal::OutOfRange;
  return e.lot && find(f.lots, *e.lot) == nullptr ? Refusal::NoSuchLot : Refusal::None;
}

}  // namespace

Refusal why_not(const Farm& f, const EnteredLate& e) {
  if (e.walk.empty()) return Refusal::NoSuchWalk;
  if (find(f.yards, e.yard) == nullptr) return Refusal::NoSuchYard;
  if (const Refusal r = colony_known(f, e.colony); r != Refusal::None) return r;
  if (const Refusal r = numbers_of(f, e); r != Refusal::None) return r;
  const Walk* walk = find(f.walks, e.walk);
  if (walk == nullptr) return Refusal::None;
  if (walk->yard != e.yard) return Refusal::AlreadyThere;
  return walk->closed ? Refusal::None : Refusal::AnotherWalkUnderWay;
}

// What happened after it was entered did not happen. The day comes with the event.
Refusal why_not_late(const Farm& f, const Event& e, const EnteredLate& late) {
  if (late.on.ok() && late.on > local_date(e.stamp)) return Refusal::OutOfRange;
  return why_not(f, late);
}

}  // namespace engine
