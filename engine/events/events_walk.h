// engine/events/events_walk.h -- one evening in one yard, from the gate to the last cloth.
#pragma once
#include <optional>
#include <string>
#include <vector>

#include "engine/core/instant.h"
#include "engine/core/terms.h"
#include "engine/core/units.h"
#include "engine/events/conditions.h"
#include "engine/events/event_fields.h"
#include "engine/order/order.h"
#include "engine/rules/label.h"

namespace engine {

// One visit of the plan that a walk set out with; times since the walk was opened.
struct PlannedVisit {
  OrderDo act = OrderDo::Set;
  ColonyId colony;
  std::optional<KitId> cloth;  // that covers, or is taken away
  Seconds start{}, end{};      // of the work there
  friend bool operator==(const PlannedVisit&, const PlannedVisit&) = default;
  DUSKWALK_FIELDS(f("act", s.act), f("colony", s.colony), f("cloth", s.cloth), f("start", s.start),
                  f("end", s.end))
};

struct WalkOpened {
  static constexpr const char* kKind = "walk_opened";
  static constexpr KindFacts kFacts{
      .says = Says::Fact,
      .leaves = Leaves::State,
      .brings = Brings::Walk,
      .walk = InWalk::Opens,
      .yard = YardIn::Yard,
      .colonies = ColoniesIn::Colonies,
      .moves = Moves::Nothing,
      .correctable = false,
      .in_register = true,
      .stands_against = {Refusal::AnotherWalkUnderWay, Refusal::NoSuchCourse},
      .stands_in_part = {Refusal::NoSuchColony},
      .noun = {"walk", "walks"}};
  WalkId walk;
  YardId yard;
  std::optional<CourseId> course;
  Conditions conditions;
  LabelRules rules;
  std::vector<ColonyId> colonies;  // in the order the keeper walks
  std::vector<KitId> vaporizers;
  std::vector<KitId> cloths;
  std::optional<KitId> respirator;
  std::string operator_name;
  std::string operator_address;
  std::string reason;  // why this yard is treated
  std::optional<std::vector<PlannedVisit>> planned{};
  DUSKWALK_FIELDS(f("walk", s.walk), f("yard", s.yard), f("course", s.course),
                  f("conditions", s.conditions), f("rules", s.rules), f("colonies", s.colonies),
                  f("vaporizers", s.vaporizers), f("cloths", s.cloths),
                  f("respirator", s.respirator), f("operator_name", s.operator_name),
                  f("operator_address", s.operator_address), f("reason", s.reason),
                  f("planned", s.planned))
};

struct ProtectionConfirmed {
  static constexpr const char* kKind = "protection_confirmed";
  static constexpr KindFacts kFacts = kOfTheWalk;
  WalkId walk;
  Protection item = Protection::Respirator;
  DUSKWALK_FIELDS(f("walk", s.walk), f("item", s.item))
};

struct VaporizerSet {
  static constexpr const char* kKind = "vaporizer_set";
  static constexpr KindFacts kFacts{
      .says = Says::Fact,
      .leaves = Leaves::State,
      .brings = Brings::Nothing,
      .walk = InWalk::Step,
      .yard = YardIn::Walk,
      .colonies = ColoniesIn::Colony,
      .moves = Moves::OfItsYard,
      .correctable = true,
      .in_register = true,
      .stands_against = {Refusal::VaporizerInUse, Refusal::UnderVapor, Refusal::ProtectionMissing},
      .stands_in_part = {Refusal::None},
      .noun = {"treatment", "treatments"}};
  WalkId walk;
  ColonyId colony;
  KitId vaporizer;
  std::optional<KitId> battery;
  std::optional<LotId> lot;
  Mass dose;  // on the basis of the walk's rules
  int brood_boxes = 1;
  bool supers_on = false;
  DUSKWALK_FIELDS(f("walk", s.walk), f("colony", s.colony), f("vaporizer", s.vaporizer),
                  f("battery", s.battery), f("lot", s.lot), f("dose", s.dose),
                  f("brood_boxes", s.brood_boxes), f("supers_on", s.supers_on))
};

// The vaporizer in a colony gives no more vapor: its dwell rests until it does again. A colony
// whose vaporizer is lifted before that was not treated.
struct VaporHalted {
  static constexpr const char* kKind = "vapor_halted";
  static constexpr KindFacts kFacts = kAtColony;
  WalkId walk;
  ColonyId colony;
  HaltWhy why = HaltWhy::BatteryEmpty;
  DUSKWALK_FIELDS(f("walk", s.walk), f("colony", s.colony), f("why", s.why))
};

// It gives vapor again, and the dwell goes on from where it rested.
struct VaporResumed {
  static constexpr const char* kKind = "vapor_resumed";
  static constexpr KindFacts kFacts = kAtColony;
  WalkId walk;
  ColonyId colony;
  DUSKWALK_FIELDS(f("walk", s.walk), f("colony", s.colony))
};

// The vaporizer is lifted out and the entrance closed. A cloth that lies elsewhere was taken there.
struct ColonyCovered {
  static constexpr const char* kKind = "colony_covered";
  static constexpr KindFacts kFacts{.says = Says::Detail,
                                    .leaves = Leaves::State,
                                    .brings = Brings::Nothing,
                                    .walk = InWalk::Step,
                                    .yard = YardIn::Walk,
                                    .colonies = ColoniesIn::Colony,
                                    .moves = Moves::Nothing,
                                    .correctable = false,
                                    .in_register = false,
                                    .stands_against = {Refusal::None},
                                    .stands_in_part = {Refusal::None},
                                    .noun = {"entry of a cloth", "entries of cloths"}};
  WalkId walk;
  ColonyId colony;
  KitId cloth;
  DUSKWALK_FIELDS(f("walk", s.walk), f("colony", s.colony), f("cloth", s.cloth))
};

// The cloth is taken away; or, from under vapor, the vaporizer is lifted and nothing closes it.
struct ColonyUncovered {
  static constexpr const char* kKind = "colony_uncovered";
  static constexpr KindFacts kFacts{.says = Says::Detail,
                                    .leaves = Leaves::State,
                                    .brings = Brings::Nothing,
                                    .walk = InWalk::StepAfterClose,
                                    .yard = YardIn::Walk,
                                    .colonies = ColoniesIn::Colony,
                                    .moves = Moves::OfItsYard,
                                    .correctable = false,
                                    .in_register = false,
                                    .stands_against = {Refusal::None},
                                    .stands_in_part = {Refusal::None},
                                    .noun = {"entry of a cloth", "entries of cloths"}};
  WalkId walk;
  ColonyId colony;
  DUSKWALK_FIELDS(f("walk", s.walk), f("colony", s.colony))
};

struct ColonyPassedOver {
  static constexpr const char* kKind = "colony_passed_over";
  static constexpr KindFacts kFacts{.says = Says::Fact,
                                    .leaves = Leaves::State,
                                    .brings = Brings::Nothing,
                                    .walk = InWalk::Step,
                                    .yard = YardIn::Walk,
                                    .colonies = ColoniesIn::Colony,
                                    .moves = Moves::OfItsYard,
                                    .correctable = true,
                                    .in_register = true,
                                    .stands_against = {Refusal::None},
                                    .stands_in_part = {Refusal::None},
                                    .noun = {"passing over", "passings over"}};
  WalkId walk;
  ColonyId colony;
  PassReason reason = PassReason::Other;
  std::string note;
  DUSKWALK_FIELDS(f("walk", s.walk), f("colony", s.colony), f("reason", s.reason),
                  f("note", s.note))
};

// Of one colony, or of the whole yard from now on.
struct BeesFlying {
  static constexpr const char* kKind = "bees_flying";
  static constexpr KindFacts kFacts{.says = Says::Detail,
                                    .leaves = Leaves::State,
                                    .brings = Brings::Nothing,
                                    .walk = InWalk::Step,
                                    .yard = YardIn::Walk,
                                    .colonies = ColoniesIn::Colony,
                                    .moves = Moves::Nothing,
                                    .correctable = false,
                                    .in_register = false,
                                    .stands_against = {Refusal::None},
                                    .stands_in_part = {Refusal::None},
                                    .noun = kOtherEntry};
  WalkId walk;
  std::optional<ColonyId> colony;
  Flight flight = Flight::None;
  DUSKWALK_FIELDS(f("walk", s.walk), f("colony", s.colony), f("flight", s.flight))
};

struct Mishap {
  static constexpr const char* kKind = "mishap";
  static constexpr KindFacts kFacts{.says = Says::Fact,
                                    .leaves = Leaves::State,
                                    .brings = Brings::Nothing,
                                    .walk = InWalk::StepAfterClose,
                                    .yard = YardIn::Walk,
                                    .colonies = ColoniesIn::Colony,
                                    .moves = Moves::OfItsYard,
                                    .correctable = false,
                                    .in_register = false,
                                    .stands_against = {Refusal::None},
                                    .stands_in_part = {Refusal::None},
                                    .noun = {"mishap", "mishaps"}};
  WalkId walk;
  std::optional<ColonyId> colony;  // none: it happened to the keeper or beside the hives
  MishapKind what = MishapKind::Dropped;
  std::string note;
  DUSKWALK_FIELDS(f("walk", s.walk), f("colony", s.colony), f("what", s.what), f("note", s.note))
};

struct WalkPaused {
  static constexpr const char* kKind = "walk_paused";
  static constexpr KindFacts kFacts = kOfTheWalk;
  WalkId walk;
  DUSKWALK_FIELDS(f("walk", s.walk))
};

struct WalkResumed {
  static constexpr const char* kKind = "walk_resumed";
  static constexpr KindFacts kFacts = kOfTheWalk;
  WalkId walk;
  DUSKWALK_FIELDS(f("walk", s.walk))
};

struct WalkClosed {
  static constexpr const char* kKind = "walk_closed";
  static constexpr KindFacts kFacts{.says = Says::Detail,
                                    .leaves = Leaves::State,
                                    .brings = Brings::Nothing,
                                    .walk = InWalk::Step,
                                    .yard = YardIn::Walk,
                                    .colonies = ColoniesIn::Nothing,
                                    .moves = Moves::OfItsYard,
                                    .correctable = false,
                                    .in_register = false,
                                    .stands_against = {Refusal::UnderVapor},
                                    .stands_in_part = {Refusal::None},
                                    .noun = kOtherEntry};
  WalkId walk;
  std::optional<LossWhy> why{};  // it ends early; none: it was walked to its end
  DUSKWALK_FIELDS(f("walk", s.walk), f("why", s.why))
};

}  // namespace engine
