// One function a kind, one line a reason. The reasons that a record stands against (farm/apply.cpp,
// stands_on_record) come last in each: one of them is given only where all else is in order.
#include <algorithm>
#include <set>

#include "engine/farm/farm.h"
#include "engine/farm/fold.h"
#include "engine/farm/would_fall.h"

namespace engine {
namespace {

template <class Map, class Key>
auto* find(const Map& map, const Key& key) {
  const auto at = map.find(key);
  return at == map.end() ? nullptr : &at->second;
}

Refusal yard_known(const Farm& f, YardId id) {
  return find(f.yards, id) == nullptr ? Refusal::NoSuchYard : Refusal::None;
}

// Asked after all else: what was entered about a yard that was lost meanwhile happened.
Refusal yard_lost(const Farm& f, YardId id) {
  return f.yards.at(id).lost ? Refusal::YardIsLost : Refusal::None;
}

Refusal yard_there(const Farm& f, YardId id) {
  const Refusal r = yard_known(f, id);
  return r == Refusal::None ? yard_lost(f, id) : r;
}

Refusal colony_known(const Farm& f, ColonyId id) {
  return find(f.colonies, id) == nullptr ? Refusal::NoSuchColony : Refusal::None;
}

Refusal colony_lost(const Farm& f, ColonyId id) {  // likewise
  return f.colonies.at(id).lost ? Refusal::ColonyIsLost : Refusal::None;
}

Refusal colony_there(const Farm& f, ColonyId id) {
  const Refusal r = colony_known(f, id);
  return r == Refusal::None ? colony_lost(f, id) : r;
}

Refusal kit_of_sort(const Farm& f, KitId id, KitSort sort) {
  const KitItem* item = find(f.kit, id);
  if (item == nullptr) return Refusal::NoSuchKit;
  return item->sort == sort ? Refusal::None : Refusal::WrongSortOfKit;
}

bool boxes_in_range(int boxes) { return boxes >= 1 && boxes <= 9; }
bool place_in_range(const std::optional<Place>& p) {
  return !p || (p->lat_udeg >= -90'000'000 && p->lat_udeg <= 90'000'000 &&
                p->lon_udeg >= -180'000'000 && p->lon_udeg <= 180'000'000);
}

// ---- places ----

Refusal why_not(const Farm& f, const YardAdded& e) {
  if (e.name.empty()) return Refusal::NameMissing;
  if (!place_in_range(e.place)) return Refusal::OutOfRange;
  return e.yard.empty() || find(f.yards, e.yard) ? Refusal::AlreadyThere : Refusal::None;
}

Refusal why_not(const Farm& f, const YardChanged& e) {
  if (const Refusal r = yard_known(f, e.yard); r != Refusal::None) return r;
  if (e.name && e.name->empty()) return Refusal::NameMissing;
  return place_in_range(e.place) ? yard_lost(f, e.yard) : Refusal::OutOfRange;
}

Refusal why_not(const Farm& f, const YardLost& e) { return yard_there(f, e.yard); }

Refusal why_not(const Farm& f, const ColonyAdded& e) {
  if (e.name.empty()) return Refusal::NameMissing;
  if (!boxes_in_range(e.brood_boxes)) return Refusal::OutOfRange;
  if (e.colony.empty() || find(f.colonies, e.colony)) return Refusal::AlreadyThere;
  if (const Refusal r = yard_known(f, e.yard); r != Refusal::None) return r;
  return yard_lost(f, e.yard);
}

Refusal why_not(const Farm& f, const ColonyChanged& e) {
  if (const Refusal r = colony_known(f, e.colony); r != Refusal::None) return r;
  if (e.name && e.name->empty()) return Refusal::NameMissing;
  if (e.brood_boxes && !boxes_in_range(*e.brood_boxes)) return Refusal::OutOfRange;
  return colony_lost(f, e.colony);
}

Refusal why_not(const Farm& f, const ColonyMoved& e) {
  if (const Refusal r = colony_known(f, e.colony); r != Refusal::None) return r;
  if (const Refusal r = yard_known(f, e.to); r != Refusal::None) return r;
  if (const Refusal r = colony_lost(f, e.colony); r != Refusal::None) return r;
  return yard_lost(f, e.to);
}

Refusal why_not(const Farm& f, const ColonyLost& e) { return colony_there(f, e.colony); }

Refusal why_not(const Farm& f, const YardsJoined& e) {
  if (const Refusal r = yard_there(f, e.yard); r != Refusal::None) return r;
  if (const Refusal r = yard_there(f, e.into); r != Refusal::None) return r;
  return e.yard == e.into ? Refusal::AlreadyThere : Refusal::None;
}

// A walk that treated both had two hives before it; one that has both on its list comes to its end
// first.
Refusal walked_apart(const Walk& walk, const ColoniesJoined& e) {
  const Stop* one = find_stop(walk, e.colony);
  const Stop* other = find_stop(walk, e.into);
  if (one == nullptr || other == nullptr) return Refusal::None;
  if (!one->treatments.empty() && !other->treatments.empty()) return Refusal::WalkedApart;
  return walk.closed ? Refusal::None : Refusal::AnotherWalkUnderWay;
}

Refusal why_not(const Farm& f, const ColoniesJoined& e) {
  if (const Refusal r = colony_there(f, e.colony); r != Refusal::None) return r;
  if (const Refusal r = colony_there(f, e.into); r != Refusal::None) return r;
  if (e.colony == e.into) return Refusal::AlreadyThere;
  for (const auto& [id, walk] : f.walks)
    if (const Refusal r = walked_apart(walk, e); r != Refusal::None) return r;
  return Refusal::None;
}

// ---- kit ----

Refusal why_not(const Farm& f, const KitAdded& e) {
  const KitItem* there = find(f.kit, e.item);
  if (e.item.empty() || (there != nullptr && !is_awaited(*there))) return Refusal::AlreadyThere;
  return e.name.empty() ? Refusal::NameMissing : Refusal::None;
}

Refusal why_not(const Farm& f, const KitChanged& e) {
  if (find(f.kit, e.item) == nullptr) return Refusal::NoSuchKit;
  return e.name && e.name->empty() ? Refusal::NameMissing : Refusal::None;
}

Refusal why_not(const Farm& f, const BatteryChanged& e) {
  if (const Refusal r = kit_of_sort(f, e.vaporizer, KitSort::Vaporizer); r != Refusal::None)
    return r;
  return kit_of_sort(f, e.battery, KitSort::Battery);
}

Refusal why_not(const Farm& f, const BatteryCharged& e) {
  return kit_of_sort(f, e.battery, KitSort::Battery);
}

Refusal why_not(const Farm& f, const VaporizerCleaned& e) {
  return kit_of_sort(f, e.vaporizer, KitSort::Vaporizer);
}

Refusal why_not(const Farm& f, const FilterChanged& e) {
  return kit_of_sort(f, e.respirator, KitSort::Respirator);
}

Refusal why_not(const Farm&, const StockReceived& e) {
  if (e.lot.empty()) return Refusal::NoSuchLot;
  if ((e.expiry && !e.expiry->ok()) || (e.on && !e.on->ok())) return Refusal::OutOfRange;
  return e.amount.mg > 0 ? Refusal::None : Refusal::OutOfRange;
}

Refusal why_not(const Farm& f, const AcidDisposed& e) {
  if (find(f.lots, e.lot) == nullptr) return Refusal::NoSuchLot;
  return e.on.ok() && e.amount.mg > 0 ? Refusal::None : Refusal::OutOfRange;
}

// ---- season ----

Refusal why_not(const Farm& f, const CountTaken& e) {
  if (!e.on.ok() || e.mites < 0 || e.mites > 100'000) return Refusal::OutOfRange;
  if (e.bees && (*e.bees < 1 || *e.bees > 10'000)) return Refusal::OutOfRange;
  if (e.hours && (*e.hours < 1 || *e.hours > 24 * 31)) return Refusal::OutOfRange;
  if (e.count && f.counts.find(e.colony, *e.count)) return Refusal::AlreadyThere;
  return colony_known(f, e.colony);
}

bool rising(const std::vector<Date>& rounds) {
  for (std::size_t i = 0; i < rounds.size(); ++i)
    if (!rounds[i].ok() || (i > 0 && rounds[i] <= rounds[i - 1])) return false;
  return !rounds.empty();
}

Refusal why_not(const Farm& f, const CoursePlanned& e) {
  if (e.course.empty() || find(f.courses, e.course)) return Refusal::AlreadyThere;
  if (const Refusal r = yard_known(f, e.yard); r != Refusal::None) return r;
  return rising(e.rounds) ? yard_lost(f, e.yard) : Refusal::OutOfRange;
}

Refusal why_not(const Farm& f, const CourseChanged& e) {
  if (find(f.courses, e.course) == nullptr) return Refusal::NoSuchCourse;
  return rising(e.rounds) ? Refusal::None : Refusal::OutOfRange;
}

Refusal why_not(const Farm& f, const CourseEnded& e) {
  return find(f.courses, e.course) ? Refusal::None : Refusal::NoSuchCourse;
}

// A course may stand in the list once.
Refusal courses_as_such(const std::vector<CourseDates>& courses) {
  std::set<CourseId> seen;
  for (const CourseDates& c : courses)
    if (!rising(c.rounds)) return Refusal::OutOfRange;
  for (const CourseDates& c : courses)
    if (!seen.insert(c.course).second) return Refusal::AlreadyThere;
  return Refusal::None;
}

// Each is known or new as it says. A record places those that are (farm/apply.cpp).
Refusal courses_to_place(const Farm& f, const std::vector<CourseDates>& courses) {
  for (const CourseDates& c : courses)
    if (const Refusal r = why_not_placed(f, c); r != Refusal::None) return r;
  for (const CourseDates& c : courses)
    if (c.yard)
      if (const Refusal r = yard_lost(f, *c.yard); r != Refusal::None) return r;
  return Refusal::None;
}

Refusal why_not(const Farm& f, const CoursesPlanned& e) {
  if (e.courses.empty()) return Refusal::NoSuchCourse;
  if (const Refusal r = courses_as_such(e.courses); r != Refusal::None) return r;
  return courses_to_place(f, e.courses);
}

Refusal why_not(const Farm&, const FreeEveningsSet& e) {
  const std::set<Weekday> once(e.weekdays.begin(), e.weekdays.end());
  return once.size() == e.weekdays.size() ? Refusal::None : Refusal::AlreadyThere;
}

Refusal why_not(const Farm&, const EveningChanged& e) {
  return e.on.ok() ? Refusal::None : Refusal::OutOfRange;
}

Refusal why_not(const Farm& f, const EveningLost& e) {
  if (!e.on.ok()) return Refusal::OutOfRange;
  if (const Refusal r = courses_as_such(e.moved); r != Refusal::None) return r;
  return courses_to_place(f, e.moved);
}

Refusal why_not(const Farm& f, const DriveTimeSet& e) {
  if (const Refusal r = yard_known(f, e.to); r != Refusal::None) return r;
  if (e.from)
    if (const Refusal r = yard_known(f, *e.from); r != Refusal::None) return r;
  const bool apart = !e.from || *e.from != e.to;
  if (!apart || e.minutes < 1 || e.minutes > 600) return Refusal::OutOfRange;
  if (const Refusal r = yard_lost(f, e.to); r != Refusal::None) return r;
  return e.from ? yard_lost(f, *e.from) : Refusal::None;
}

Refusal why_not(const Farm&, const AirExpected& e) {
  const bool fits = !e.air || (e.air->tenths_c >= -400 && e.air->tenths_c <= 600);
  return e.on.ok() && fits ? Refusal::None : Refusal::OutOfRange;
}

bool each_once(const std::vector<ColonyId>& list) {
  return std::set<ColonyId>(list.begin(), list.end()).size() == list.size();
}

// A record holds for those that are (farm/apply.cpp).
Refusal all_known(const Farm& f, const std::vector<ColonyId>& list) {
  for (const ColonyId id : list)
    if (const Refusal r = colony_known(f, id); r != Refusal::None) return r;
  return Refusal::None;
}

Refusal why_not(const Farm& f, const BroodNoted& e) {
  if (!e.on.ok()) return Refusal::OutOfRange;
  if (e.colonies.empty()) return Refusal::NoSuchColony;
  if (!each_once(e.colonies)) return Refusal::AlreadyThere;
  return all_known(f, e.colonies);
}

// ---- the walk ----

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

// A step of a walk is asked of the walk: engine/walk/walk.cpp has an overload for each.
template <class Step>
requires(Step::kFacts.is_step()) Refusal why_not(const Farm& f, const Step& e) {
  return why_not_in_walk(f, e.walk, Body{e});
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

bool minute_in_range(const std::optional<int>& m) { return !m || (*m >= 0 && *m < 24 * 60); }

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

// ---- the rest ----

Refusal why_not(const Farm& f, const ComeBackSettled& e) { return colony_known(f, e.colony); }

Refusal why_not(const Farm& f, const OtherTreatmentGiven& e) {
  if (!e.on.ok() || e.withdrawal_days < 0 || !minute_in_range(e.minute)) return Refusal::OutOfRange;
  if (e.days_given && (*e.days_given < 1 || *e.days_given > 365)) return Refusal::OutOfRange;
  if (e.brood_boxes && !boxes_in_range(*e.brood_boxes)) return Refusal::OutOfRange;
  if (e.lot_expiry && !e.lot_expiry->ok()) return Refusal::OutOfRange;
  return e.product.empty() ? Refusal::NameMissing : colony_known(f, e.colony);
}

Refusal why_not(const Farm& f, const NoteWritten& e) {
  if (e.text.empty()) return Refusal::NameMissing;
  if (e.yard && find(f.yards, *e.yard) == nullptr) return Refusal::NoSuchYard;
  return e.colony ? colony_known(f, *e.colony) : Refusal::None;
}

bool one_to_999(const std::optional<int>& n) { return !n || (*n >= 1 && *n <= 999); }

Refusal why_not(const Farm&, const SetupChanged& e) {
  if (e.rules && !what_is_wrong(*e.rules).empty()) return Refusal::OutOfRange;
  if (e.thresholds && !what_is_wrong(*e.thresholds).empty()) return Refusal::OutOfRange;
  if (!one_to_999(e.clean_every) || !one_to_999(e.cartridge_hours)) return Refusal::OutOfRange;
  if (e.pace && !what_is_wrong(*e.pace).empty()) return Refusal::OutOfRange;
  return place_in_range(e.home) ? Refusal::None : Refusal::OutOfRange;
}

Refusal why_not(const Farm&, const ClockFollowed& e) {
  if (e.after_utc_ms < 0) return Refusal::OutOfRange;
  const bool numbers = !e.read || std::all_of(e.read->begin(), e.read->end(),
                                              [](const EntryRef& ref) { return ref.seq > 0; });
  return numbers ? Refusal::None : Refusal::OutOfRange;
}

Refusal why_not(const Farm& f, const SetupKept& e) {
  for (const EntryRef& ref : e.entries)
    if (!f.log.find(ref)) return Refusal::NoSuchEntry;
  return e.entries.empty() ? Refusal::NoSuchEntry : Refusal::None;
}

Refusal why_not(const Farm& f, const ContradictionSettled& e) {
  for (const EntryRef& ref : e.entries)
    if (!f.log.find(ref)) return Refusal::NoSuchEntry;
  if (e.entries.empty()) return Refusal::NoSuchEntry;
  return e.decision.empty() ? Refusal::NameMissing : Refusal::None;
}

// ---- what is said of entries ----

// An entry that still stands, so that it can be struck.
Refusal stands_there(const Farm& f, const EntryRef& ref) {
  const auto at = f.log.find(ref);
  if (!at) return Refusal::NoSuchEntry;
  const Entry entry = f.log.copy(*at);
  if (facts_of(entry.event.body).is_strike()) return Refusal::StrikesAStrike;
  return entry.struck ? Refusal::AlreadyStruck : Refusal::None;
}

// Of words that hold in the place of others: what can be said of them whatever stands around them.
Refusal could_be(const Farm& f, const VaporizerSet& e) {
  if (e.dose.mg <= 0 || !boxes_in_range(e.brood_boxes)) return Refusal::OutOfRange;
  if (e.lot && find(f.lots, *e.lot) == nullptr) return Refusal::NoSuchLot;
  return e.battery ? kit_of_sort(f, *e.battery, KitSort::Battery) : Refusal::None;
}
Refusal could_be(const Farm&, const ColonyPassedOver&) { return Refusal::None; }
// It stands in the place of the count that has its id now.
Refusal could_be(const Farm& f, CountTaken e) {
  e.count.reset();
  return why_not(f, e);
}
Refusal could_be(const Farm& f, const NoteWritten& e) { return why_not(f, e); }
Refusal could_be(const Farm& f, const EnteredLate& e) { return why_not(f, e); }
Refusal could_be(const Farm& f, const BroodNoted& e) { return why_not(f, e); }
Refusal could_be(const Farm& f, const OtherTreatmentGiven& e) { return why_not(f, e); }
Refusal could_be(const Farm& f, const StockReceived& e) { return why_not(f, e); }
Refusal could_be(const Farm& f, const AcidDisposed& e) { return why_not(f, e); }

// The entry in whose place the words of corrections hold.
Entry first_said(const Farm& f, const Entry& entry) {
  const auto* c = std::get_if<EntryCorrected>(&entry.event.body);
  const auto at = c == nullptr ? std::nullopt : f.log.find(c->entry);
  return at ? first_said(f, f.log.copy(*at)) : entry;
}

// Brood is noted in the colonies themselves, so they must have been there by then.
Refusal there_by_then(const Farm& f, const EntryRef& entry, const BroodNoted& words) {
  const std::size_t place = first_place(f.log, *f.log.find(entry));
  for (const ColonyId colony : words.colonies)
    if (!colony_came_before(f.log, place, colony)) return Refusal::NoSuchColony;
  return Refusal::None;
}

Refusal why_not_corrected(const Farm& f, const EntryCorrected& c) {
  if (const Refusal r = stands_there(f, c.entry); r != Refusal::None) return r;
  const Entry entry = f.log.copy(*f.log.find(c.entry));
  if (!corrects_alike(entry, c.instead)) return Refusal::NotCorrectable;
  if (const auto* late = std::get_if<EnteredLate>(&c.instead.body()))
    return why_not_late(f, first_said(f, entry).event, *late);
  if (const auto* brood = std::get_if<BroodNoted>(&c.instead.body()))
    if (const Refusal r = there_by_then(f, c.entry, *brood); r != Refusal::None) return r;
  return std::visit([&](const auto& body) { return could_be(f, body); }, c.instead.body());
}

Refusal why_not(const Farm& f, const EntryStruck& e) { return stands_there(f, e.entry); }

// Only the strike that holds can be taken back.
Refusal why_not(const Farm& f, const StrikeTakenBack& e) {
  const auto at = f.log.find(e.strike);
  const auto said = at ? strike_in(f.log.copy(*at).event.body) : std::nullopt;
  const auto struck = said ? f.log.find(said->entry) : std::nullopt;
  if (!struck) return Refusal::NoSuchEntry;
  const Entry entry = f.log.copy(*struck);
  return entry.struck && entry.struck->by == e.strike ? Refusal::None : Refusal::NotStruck;
}

}  // namespace

Refusal why_it_does_not_fit(const Farm& farm, const Event& e) {
  if (const auto* opened = std::get_if<WalkOpened>(&e.body)) return why_not_open(farm, e, *opened);
  if (const auto* late = std::get_if<EnteredLate>(&e.body)) return why_not_late(farm, e, *late);
  if (const auto* c = std::get_if<EntryCorrected>(&e.body)) return why_not_corrected(farm, *c);
  return std::visit(
      [&]<class Kind>(const Kind& kind) {
        if constexpr (std::is_same_v<Kind, WalkOpened> || std::is_same_v<Kind, EntryCorrected>)
          return Refusal::None;
        else
          return why_not(farm, kind);
      },
      e.body);
}

Refusal why_not_placed(const Farm& f, const CourseDates& c) {
  const bool known = find(f.courses, c.course) != nullptr;
  if (!c.yard) return known ? Refusal::None : Refusal::NoSuchCourse;
  return known || c.course.empty() ? Refusal::AlreadyThere : yard_known(f, *c.yard);
}

Refusal why_not_on_record(const Farm& farm, const Event& e) {
  const std::int64_t* last = find(farm.last_seq, e.ref.device);
  if (e.ref.seq != (last ? *last : 0) + 1) return Refusal::SeqOutOfStep;
  return why_it_does_not_fit(farm, e);
}

Refusal why_not(const Farm& farm, const Event& e) {
  const Refusal r = why_not_on_record(farm, e);
  return r == Refusal::None ? why_not_tried(farm, e) : r;
}

}  // namespace engine
