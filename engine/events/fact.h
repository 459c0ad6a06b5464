// engine/events/fact.h -- which entries say something that happened, or that something came to be,
// and so must not leave the farm because another entry is struck (engine/farm/would_fall.h).
//
// All others are details of such a thing (a covering, a changed name), plans, or settings: those
// may fall with what they belong to, where people have seen it before.
#pragma once
#include <type_traits>

#include "engine/events/event.h"

namespace engine {

template <class Kind, class... Kinds>
inline constexpr bool is_any_of = (std::is_same_v<Kind, Kinds> || ...);

// Of a kind that is in neither list nothing is known: it does not compile.
template <class Kind>
[[nodiscard]] constexpr bool is_fact_kind() {
  constexpr bool fact =
      is_any_of<Kind, YardAdded, ColonyAdded, ColonyMoved, KitAdded, StockReceived, AcidDisposed,
                CountTaken, BroodNoted, WalkOpened, VaporizerSet, ColonyPassedOver, Mishap,
                EnteredLate, OtherTreatmentGiven, NoteWritten, EntryCorrected, StrikeTakenBack>;
  constexpr bool detail =
      is_any_of<Kind, YardChanged, YardLost, ColonyChanged, ColonyLost, KitChanged, BatteryChanged,
                BatteryCharged, VaporizerCleaned, FilterChanged, CoursePlanned, CourseChanged,
                CourseEnded, CoursesPlanned, FreeEveningsSet, EveningChanged, EveningLost,
                DriveTimeSet, AirExpected, ProtectionConfirmed, ColonyCovered, ColonyUncovered,
                BeesFlying, WalkPaused, WalkResumed, WalkClosed, ComeBackSettled, SetupChanged,
                EntryStruck, ClockFollowed, ContradictionSettled, SetupKept, YardsJoined,
                ColoniesJoined>;
  static_assert(fact != detail, "a new kind: is it a fact?");
  return fact;
}

[[nodiscard]] inline bool is_fact(const Body& body) {
  return std::visit([]<class Kind>(const Kind&) { return is_fact_kind<Kind>(); }, body);
}

}  // namespace engine
