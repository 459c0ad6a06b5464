// engine/farm/why_not_kinds.h -- why an entry does not fit: one function a kind, in the
// why_not_*.cpp of its subject, one line a reason. The reasons against which a record stands
// (KindFacts) come last in each: one of them is given only where all else is in order.
#pragma once
#include <set>
#include <vector>

#include "engine/farm/farm.h"

namespace engine {

// ---- places ----

[[nodiscard]] Refusal why_not(const Farm& f, const YardAdded& e);
[[nodiscard]] Refusal why_not(const Farm& f, const YardChanged& e);
[[nodiscard]] Refusal why_not(const Farm& f, const YardLost& e);
[[nodiscard]] Refusal why_not(const Farm& f, const ColonyAdded& e);
[[nodiscard]] Refusal why_not(const Farm& f, const ColonyChanged& e);
[[nodiscard]] Refusal why_not(const Farm& f, const ColonyMoved& e);
[[nodiscard]] Refusal why_not(const Farm& f, const ColonyLost& e);
[[nodiscard]] Refusal why_not(const Farm& f, const YardsJoined& e);
[[nodiscard]] Refusal why_not(const Farm& f, const ColoniesJoined& e);

// ---- kit ----

[[nodiscard]] Refusal why_not(const Farm& f, const KitAdded& e);
[[nodiscard]] Refusal why_not(const Farm& f, const KitChanged& e);
[[nodiscard]] Refusal why_not(const Farm& f, const BatteryChanged& e);
[[nodiscard]] Refusal why_not(const Farm& f, const BatteryCharged& e);
[[nodiscard]] Refusal why_not(const Farm& f, const VaporizerCleaned& e);
[[nodiscard]] Refusal why_not(const Farm& f, const FilterChanged& e);
[[nodiscard]] Refusal why_not(const Farm& f, const StockReceived& e);
[[nodiscard]] Refusal why_not(const Farm& f, const AcidDisposed& e);

// ---- season ----

[[nodiscard]] Refusal why_not(const Farm& f, const CountTaken& e);
[[nodiscard]] Refusal why_not(const Farm& f, const CoursePlanned& e);
[[nodiscard]] Refusal why_not(const Farm& f, const CourseChanged& e);
[[nodiscard]] Refusal why_not(const Farm& f, const CourseEnded& e);
[[nodiscard]] Refusal why_not(const Farm& f, const CoursesPlanned& e);
[[nodiscard]] Refusal why_not(const Farm& f, const FreeEveningsSet& e);
[[nodiscard]] Refusal why_not(const Farm& f, const EveningChanged& e);
[[nodiscard]] Refusal why_not(const Farm& f, const EveningLost& e);
[[nodiscard]] Refusal why_not(const Farm& f, const DriveTimeSet& e);
[[nodiscard]] Refusal why_not(const Farm& f, const AirExpected& e);
[[nodiscard]] Refusal why_not(const Farm& f, const BroodNoted& e);
[[nodiscard]] Refusal why_not(const Farm& f, const BoardPutIn& e);
[[nodiscard]] Refusal why_not(const Farm& f, const ComeBackSettled& e);
[[nodiscard]] Refusal why_not(const Farm& f, const OtherTreatmentGiven& e);

// ---- the walk ----

[[nodiscard]] Refusal why_not(const Farm& f, const VaporizerSet& e);
[[nodiscard]] Refusal why_not(const Farm& f, const EnteredLate& e);

// ---- notes, other entries, settings ----

[[nodiscard]] Refusal why_not(const Farm& f, const NoteWritten& e);
[[nodiscard]] Refusal why_not(const Farm& f, const SetupChanged& e);
[[nodiscard]] Refusal why_not(const Farm& f, const ClockFollowed& e);
[[nodiscard]] Refusal why_not(const Farm& f, const SetupKept& e);
[[nodiscard]] Refusal why_not(const Farm& f, const TabletKeyed& e);
[[nodiscard]] Refusal why_not(const Farm& f, const TabletTrusted& e);
[[nodiscard]] Refusal why_not(const Farm& f, const TabletRefused& e);
[[nodiscard]] Refusal why_not(const Farm& f, const ContradictionSettled& e);
[[nodiscard]] Refusal why_not(const Farm& f, const EntryStruck& e);
[[nodiscard]] Refusal why_not(const Farm& f, const StrikeTakenBack& e);

// A step of a walk is asked of the walk: engine/walk/walk.cpp has an overload for each.
[[nodiscard]] Refusal why_not_in_walk(const Farm& f, WalkId id, const Body& step);
template <class Step>
requires(Step::kFacts.is_step()) Refusal why_not(const Farm& f, const Step& e) {
  return why_not_in_walk(f, e.walk, Body{e});
}

// Of kinds for which the tablet that walks, the day of the entry or the log counts too.
[[nodiscard]] Refusal why_not_open(const Farm& f, const Event& e, const WalkOpened& o);
[[nodiscard]] Refusal why_not_late(const Farm& f, const Event& e, const EnteredLate& late);
[[nodiscard]] Refusal why_not_corrected(const Farm& f, const EntryCorrected& c);

// ---- what several of them ask ----

template <class Map, class Key>
[[nodiscard]] auto* find(const Map& map, const Key& key) {
  const auto at = map.find(key);
  return at == map.end() ? nullptr : &at->second;
}

[[nodiscard]] inline Refusal yard_known(const Farm& f, YardId id) {
  return find(f.yards, id) == nullptr ? Refusal::NoSuchYard : Refusal::None;
}

// Asked after all else: what was entered about a yard that was lost meanwhile happened.
[[nodiscard]] inline Refusal yard_lost(const Farm& f, YardId id) {
  return f.yards.at(id).lost ? Refusal::YardIsLost : Refusal::None;
}

[[nodiscard]] inline Refusal yard_there(const Farm& f, YardId id) {
  const Refusal r = yard_known(f, id);
  return r == Refusal::None ? yard_lost(f, id) : r;
}

[[nodiscard]] inline Refusal colony_known(const Farm& f, ColonyId id) {
  return find(f.colonies, id) == nullptr ? Refusal::NoSuchColony : Refusal::None;
}

[[nodiscard]] inline Refusal colony_lost(const Farm& f, ColonyId id) {  // likewise
  return f.colonies.at(id).lost ? Refusal::ColonyIsLost : Refusal::None;
}

[[nodiscard]] inline Refusal colony_there(const Farm& f, ColonyId id) {
  const Refusal r = colony_known(f, id);
  return r == Refusal::None ? colony_lost(f, id) : r;
}

[[nodiscard]] inline Refusal kit_of_sort(const Farm& f, KitId id, KitSort sort) {
  const KitItem* item = find(f.kit, id);
  if (item == nullptr) return Refusal::NoSuchKit;
  return item->sort == sort ? Refusal::None : Refusal::WrongSortOfKit;
}

[[nodiscard]] inline bool boxes_in_range(int boxes) { return boxes >= 1 && boxes <= 9; }
[[nodiscard]] inline bool place_in_range(const std::optional<Place>& p) {
  return !p || (p->lat_udeg >= -90'000'000 && p->lat_udeg <= 90'000'000 &&
                p->lon_udeg >= -180'000'000 && p->lon_udeg <= 180'000'000);
}

template <class T>
[[nodiscard]] bool each_once(const std::vector<T>& list) {
  return std::set<T>(list.begin(), list.end()).size() == list.size();
}

// A record holds for those that are there (KindFacts::stands_in_part).
[[nodiscard]] inline Refusal all_known(const Farm& f, const std::vector<ColonyId>& list) {
  for (const ColonyId id : list)
    if (const Refusal r = colony_known(f, id); r != Refusal::None) return r;
  return Refusal::None;
}

[[nodiscard]] inline bool minute_in_range(const std::optional<int>& m) {
  return !m || (*m >= 0 && *m < 24 * 60);
}

}  // namespace engine
