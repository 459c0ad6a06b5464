// engine/events/refusal.h -- the one reason why an event is impossible.
//
// Only the impossible is refused. What is unwise (too early, too much, bees flying) happened in the
// yard: the screens warn before it and the journal holds it after.
#pragma once
#include <array>

#include "engine/core/names.h"

namespace engine {

enum class Refusal {
  None,
  SeqOutOfStep,  // not the next number of its device
  NoSuchYard,
  NoSuchColony,
  NoSuchKit,
  NoSuchLot,
  NoSuchCourse,
  NoSuchWalk,
  NoSuchEntry,
  AlreadyThere,  // the id is taken
  NameMissing,
  OutOfRange,  // a number or date no such thing can have
  WrongSortOfKit,
  YardIsLost,
  ColonyIsLost,
  ColonyNotInWalk,
  NothingToTreat,  // a walk without colonies
  NoVaporizer,     // a walk without one
  AnotherWalkUnderWay,
  WalkIsClosed,
  WalkIsPaused,
  ProtectionMissing,  // not every item is confirmed
  AlreadyConfirmed,
  VaporizerInUse,  // it stands in another colony
  UnderVapor,      // first lift the vaporizer
  NotUnderVapor,
  NotCovered,
  AlreadyTreated,  // what was treated in this walk cannot have been passed over
  NotPaused,
  AlreadyStruck,
  StrikesAStrike,
  OthersStandOnIt,  // facts would fall with it
  NotCorrectable,   // of another kind, or about another walk, colony or lot
  NotStruck,        // the strike does not hold, so there is nothing to take back
  WalkedApart,      // one walk treated both: two colonies, not one entered twice
  VaporIsHalted,    // it rests already
  VaporNotHalted,
};

constexpr std::array<const char*, 37> enum_names(Refusal) {
  return {"none",
          "seq_out_of_step",
          "no_such_yard",
          "no_such_colony",
          "no_such_kit",
          "no_such_lot",
          "no_such_course",
          "no_such_walk",
          "no_such_entry",
          "already_there",
          "name_missing",
          "out_of_range",
          "wrong_sort_of_kit",
          "yard_is_lost",
          "colony_is_lost",
          "colony_not_in_walk",
          "nothing_to_treat",
          "no_vaporizer",
          "another_walk_under_way",
          "walk_is_closed",
          "walk_is_paused",
          "protection_missing",
          "already_confirmed",
          "vaporizer_in_use",
          "under_vapor",
          "not_under_vapor",
          "not_covered",
          "already_treated",
          "not_paused",
          "already_struck",
          "strikes_a_strike",
          "others_stand_on_it",
          "not_correctable",
          "not_struck",
          "walked_apart",
          "vapor_is_halted",
          "vapor_not_halted"};
}

}  // namespace engine
