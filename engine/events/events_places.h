// engine/events/events_places.h -- yards and colonies come, change and go.
#pragma once
#include <optional>
#include <string>
#include <vector>

#include "engine/core/terms.h"
#include "engine/events/event_fields.h"

namespace engine {

struct YardAdded {
  static constexpr const char* kKind = "yard_added";
  static constexpr KindFacts kFacts{.says = Says::Fact,
                                    .leaves = Leaves::State,
                                    .brings = Brings::Yard,
                                    .walk = InWalk::No,
                                    .yard = YardIn::Yard,
                                    .colonies = ColoniesIn::Nothing,
                                    .moves = Moves::Nothing,
                                    .correctable = false,
                                    .in_register = false,
                                    .stands_against = {Refusal::None},
                                    .stands_in_part = {Refusal::AlreadyThere},
                                    .noun = kOtherEntry};
  YardId yard;
  std::string name;
  std::optional<Place> place;
  std::string zone;  // IANA name ("America/Denver"); empty when not known
  std::string note;
  DUSKWALK_FIELDS(f("yard", s.yard), f("name", s.name), f("place", s.place), f("zone", s.zone),
                  f("note", s.note))
};

// Only the fields that are given change.
struct YardChanged {
  static constexpr const char* kKind = "yard_changed";
  static constexpr KindFacts kFacts{.says = Says::Detail,
                                    .leaves = Leaves::State,
                                    .brings = Brings::Nothing,
                                    .walk = InWalk::No,
                                    .yard = YardIn::Yard,
                                    .colonies = ColoniesIn::Nothing,
                                    .moves = Moves::Nothing,
                                    .correctable = false,
                                    .in_register = false,
                                    .stands_against = {Refusal::None},
                                    .stands_in_part = {Refusal::None},
                                    .noun = kOtherEntry};
  YardId yard;
  std::optional<std::string> name;
  std::optional<Place> place;
  std::optional<std::string> zone;
  std::optional<std::string> note;
  std::optional<Spot> gate{};              // where the keeper comes in, among the colonies' spots
  std::optional<std::string> address{};    // for who must be told where to come
  std::optional<std::string> access{};     // how to get in
  std::optional<std::string> landowner{};  // name and how to reach them
  std::optional<std::string> private_note{};  // codes of gates and the like: in no export or report
  DUSKWALK_FIELDS(f("yard", s.yard), f("name", s.name), f("place", s.place), f("zone", s.zone),
                  f("note", s.note), f("gate", s.gate), f("address", s.address),
                  f("access", s.access), f("landowner", s.landowner),
                  f("private_note", s.private_note))
};

struct YardLost {
  static constexpr const char* kKind = "yard_lost";
  static constexpr KindFacts kFacts{.says = Says::Loss,
                                    .leaves = Leaves::State,
                                    .brings = Brings::Nothing,
                                    .walk = InWalk::No,
                                    .yard = YardIn::Yard,
                                    .colonies = ColoniesIn::Nothing,
                                    .moves = Moves::OfItsYard,
                                    .correctable = false,
                                    .in_register = false,
                                    .stands_against = {Refusal::None},
                                    .stands_in_part = {Refusal::None},
                                    .noun = kOtherEntry};
  YardId yard;
  std::string reason;
  DUSKWALK_FIELDS(f("yard", s.yard), f("reason", s.reason))
};

struct ColonyAdded {
  static constexpr const char* kKind = "colony_added";
  static constexpr KindFacts kFacts{.says = Says::Fact,
                                    .leaves = Leaves::State,
                                    .brings = Brings::Colony,
                                    .walk = InWalk::No,
                                    .yard = YardIn::Yard,
                                    .colonies = ColoniesIn::Colony,
                                    .moves = Moves::Nothing,
                                    .correctable = false,
                                    .in_register = false,
                                    .stands_against = {Refusal::None},
                                    .stands_in_part = {Refusal::AlreadyThere},
                                    .noun = {"colony", "colonies"}};
  ColonyId colony;
  YardId yard;
  std::string name;
  int brood_boxes = 1;  // 1 to 9
  bool supers_on = false;
  std::optional<Spot> spot;
  std::optional<int> order;  // where it comes in the keeper's own walk; by arrival when not given
  std::string note;
  std::optional<ColonySort> sort{};  // none: a hive
  DUSKWALK_FIELDS(f("colony", s.colony), f("yard", s.yard), f("name", s.name),
                  f("brood_boxes", s.brood_boxes), f("supers_on", s.supers_on), f("spot", s.spot),
                  f("order", s.order), f("note", s.note), f("sort", s.sort))
};

struct ColonyChanged {
  static constexpr const char* kKind = "colony_changed";
  static constexpr KindFacts kFacts = kOfTheColony;
  ColonyId colony;
  std::optional<std::string> name;
  std::optional<int> brood_boxes;
  std::optional<bool> supers_on;
  std::optional<Spot> spot;
  std::optional<int> order;
  std::optional<std::string> note;
  std::optional<ColonySort> sort{};
  std::optional<bool> queenless{};
  std::optional<std::vector<Leak>> leaks{};  // all of them as they are now; empty: there is none
  DUSKWALK_FIELDS(f("colony", s.colony), f("name", s.name), f("brood_boxes", s.brood_boxes),
                  f("supers_on", s.supers_on), f("spot", s.spot), f("order", s.order),
                  f("note", s.note), f("sort", s.sort), f("queenless", s.queenless),
                  f("leaks", s.leaks))
};

struct ColonyMoved {
  static constexpr const char* kKind = "colony_moved";
  static constexpr KindFacts kFacts{.says = Says::Fact,
                                    .leaves = Leaves::State,
                                    .brings = Brings::Nothing,
                                    .walk = InWalk::No,
                                    .yard = YardIn::To,
                                    .colonies = ColoniesIn::Colony,
                                    .moves = Moves::OfItsYard,
                                    .correctable = false,
                                    .in_register = false,
                                    .stands_against = {Refusal::None},
                                    .stands_in_part = {Refusal::None},
                                    .noun = {"move", "moves"}};
  ColonyId colony;
  YardId to;
  std::optional<Spot> spot;
  DUSKWALK_FIELDS(f("colony", s.colony), f("to", s.to), f("spot", s.spot))
};

struct ColonyLost {
  static constexpr const char* kKind = "colony_lost";
  static constexpr KindFacts kFacts{.says = Says::Loss,
                                    .leaves = Leaves::State,
                                    .brings = Brings::Nothing,
                                    .walk = InWalk::No,
                                    .yard = YardIn::Colony,
                                    .colonies = ColoniesIn::Colony,
                                    .moves = Moves::OfItsYard,
                                    .correctable = false,
                                    .in_register = false,
                                    .stands_against = {Refusal::None},
                                    .stands_in_part = {Refusal::None},
                                    .noun = kOtherEntry};
  ColonyId colony;
  std::string reason;
  DUSKWALK_FIELDS(f("colony", s.colony), f("reason", s.reason))
};

// Two yards are one, entered twice: whatever is said of `yard`, before and after, is said of
// `into`. It is taken back by striking this entry; then both are as they were entered.
struct YardsJoined {
  static constexpr const char* kKind = "yards_joined";
  static constexpr KindFacts kFacts{.says = Says::Join,
                                    .leaves = Leaves::State,
                                    .brings = Brings::Nothing,
                                    .walk = InWalk::No,
                                    .yard = YardIn::Yard,
                                    .colonies = ColoniesIn::Nothing,
                                    .moves = Moves::Nothing,
                                    .correctable = false,
                                    .in_register = false,
                                    .stands_against = {Refusal::None},
                                    .stands_in_part = {Refusal::None},
                                    .noun = kOtherEntry};
  YardId yard;
  YardId into;
  DUSKWALK_FIELDS(f("yard", s.yard), f("into", s.into))
};

// Likewise two colonies.
struct ColoniesJoined {
  static constexpr const char* kKind = "colonies_joined";
  static constexpr KindFacts kFacts{.says = Says::Join,
                                    .leaves = Leaves::State,
                                    .brings = Brings::Nothing,
                                    .walk = InWalk::No,
                                    .yard = YardIn::Colony,
                                    .colonies = ColoniesIn::Joined,
                                    .moves = Moves::Nothing,
                                    .correctable = false,
                                    .in_register = false,
                                    .stands_against = {Refusal::None},
                                    .stands_in_part = {Refusal::None},
                                    .noun = kOtherEntry};
  ColonyId colony;
  ColonyId into;
  DUSKWALK_FIELDS(f("colony", s.colony), f("into", s.into))
};

}  // namespace engine
