// engine/events/events_late.h -- what happened on a walk and was entered afterwards.
#pragma once
#include <optional>
#include <string>

#include "engine/core/instant.h"
#include "engine/core/terms.h"
#include "engine/core/units.h"
#include "engine/events/conditions.h"
#include "engine/events/event_fields.h"
#include "engine/rules/label.h"

namespace engine {

// Vapor that a colony got, or that it was passed over, entered afterwards: the tablet was dead, or
// nobody tapped. It joins the walk it names where that is there and closed; else it makes that
// walk, and those entered under the same id join it. Vaporizer, cloth and battery stay unknown, so
// nothing is learned from it.
struct EnteredLate {
  static constexpr const char* kKind = "entered_late";
  static constexpr KindFacts kFacts{.says = Says::Fact,
                                    .leaves = Leaves::State,
                                    .brings = Brings::Walk,
                                    .walk = InWalk::Late,
                                    .yard = YardIn::Yard,
                                    .colonies = ColoniesIn::Colony,
                                    .moves = Moves::OfItsYard,
                                    .correctable = true,
                                    .in_register = true,
                                    .stands_against = {Refusal::AnotherWalkUnderWay},
                                    .stands_in_part = {Refusal::None},
                                    .noun = {"treatment", "treatments"}};
  WalkId walk;
  YardId yard;
  ColonyId colony;
  Date on{};                         // the local day it happened, not after the one it is entered
  std::optional<int> minute;         // of that day, 0 to 1439, by the clock of the entry's zone
  std::optional<PassReason> passed;  // passed over and nothing given; dose is zero then
  Mass dose;                         // on the basis of the rules
  int brood_boxes = 1;
  bool supers_on = false;
  std::optional<LotId> lot;
  LabelRules rules;              // in force then
  std::optional<Seconds> dwell;  // none: nobody knows
  std::optional<Seconds> seal;
  std::string operator_name;
  std::string operator_address;
  std::string reason;  // for the treatment
  std::optional<Conditions> weather;
  std::string note;
  DUSKWALK_FIELDS(f("walk", s.walk), f("yard", s.yard), f("colony", s.colony), f("on", s.on),
                  f("minute", s.minute), f("passed", s.passed), f("dose", s.dose),
                  f("brood_boxes", s.brood_boxes), f("supers_on", s.supers_on), f("lot", s.lot),
                  f("rules", s.rules), f("dwell", s.dwell), f("seal", s.seal),
                  f("operator_name", s.operator_name), f("operator_address", s.operator_address),
                  f("reason", s.reason), f("weather", s.weather), f("note", s.note))
};

}  // namespace engine
