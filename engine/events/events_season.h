// engine/events/events_season.h -- counts, brood, colonies that need no visit, other treatments.
#pragma once
#include <optional>
#include <string>
#include <vector>

#include "engine/core/instant.h"
#include "engine/core/terms.h"
#include "engine/events/conditions.h"
#include "engine/events/event_fields.h"

namespace engine {

struct CountTaken {
  static constexpr const char* kKind = "count_taken";
  static constexpr KindFacts kFacts{.says = Says::Fact,
                                    .leaves = Leaves::Row,
                                    .brings = Brings::Nothing,
                                    .walk = InWalk::No,
                                    .yard = YardIn::Colony,
                                    .colonies = ColoniesIn::Colony,
                                    .moves = Moves::OfItsYard,
                                    .correctable = true,
                                    .in_register = false,
                                    .stands_against = {Refusal::None},
                                    .stands_in_part = {Refusal::None},
                                    .noun = {"count", "counts"}};
  ColonyId colony;
  Date on{};
  CountMethod method = CountMethod::AlcoholWash;
  int mites = 0;
  std::optional<int> bees;   // washes and rolls
  std::optional<int> hours;  // sticky boards
  std::string note;
  // Of a count that a sheet holds, made of its words: the same row read on two tablets is one
  // count.
  std::optional<CountId> count{};
  std::optional<bool> queen_safe{};   // she was seen and is not in the sample
  std::optional<int> second_shake{};  // of the mites, those that only a second shake brought
  DUSKWALK_FIELDS(f("colony", s.colony), f("on", s.on), f("method", s.method), f("mites", s.mites),
                  f("bees", s.bees), f("hours", s.hours), f("note", s.note), f("count", s.count),
                  f("queen_safe", s.queen_safe), f("second_shake", s.second_shake))
};

// A sticky board goes in under a colony. The count of a board that is taken later ends it.
struct BoardPutIn {
  static constexpr const char* kKind = "board_put_in";
  static constexpr KindFacts kFacts = kOfTheColony;
  ColonyId colony;
  Date on{};
  DUSKWALK_FIELDS(f("colony", s.colony), f("on", s.on))
};

struct BroodNoted {
  static constexpr const char* kKind = "brood_noted";
  static constexpr KindFacts kFacts{.says = Says::Fact,
                                    .leaves = Leaves::State,
                                    .brings = Brings::Nothing,
                                    .walk = InWalk::No,
                                    .yard = YardIn::FirstColony,
                                    .colonies = ColoniesIn::Colonies,
                                    .moves = Moves::Nothing,
                                    .correctable = true,
                                    .in_register = false,
                                    .stands_against = {Refusal::None},
                                    .stands_in_part = {Refusal::NoSuchColony},
                                    .noun = {"note", "notes"}};
  std::vector<ColonyId> colonies;
  Date on{};
  BroodFact what = BroodFact::BroodSeen;
  std::string note;
  DUSKWALK_FIELDS(f("colonies", s.colonies), f("on", s.on), f("what", s.what), f("note", s.note))
};

// The keeper says that a colony on the come-back list needs no further visit.
struct ComeBackSettled {
  static constexpr const char* kKind = "come_back_settled";
  static constexpr KindFacts kFacts{.says = Says::Detail,
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

struct OtherTreatmentGiven {
  static constexpr const char* kKind = "other_treatment_given";
  static constexpr KindFacts kFacts{.says = Says::Fact,
                                    .leaves = Leaves::Row,
                                    .brings = Brings::Nothing,
                                    .walk = InWalk::No,
                                    .yard = YardIn::Colony,
                                    .colonies = ColoniesIn::Colony,
                                    .moves = Moves::Nothing,
                                    .correctable = true,
                                    .in_register = true,
                                    .stands_against = {Refusal::None},
                                    .stands_in_part = {Refusal::None},
                                    .noun = {"treatment", "treatments"}};
  ColonyId colony;
  Date on{};
  Method method = Method::Other;
  std::string product;
  std::string registration;
  std::string lot;
  std::string dose;  // as the keeper writes it: "50 mL", "2 strips"
  int withdrawal_days = 0;
  std::string note;
  std::optional<std::string> rules{};  // id of the method's rules (engine/method/method.h)
  std::optional<int> minute{};         // of the day, 0 to 1439
  std::optional<int> days_given{};     // how long it stayed in the hive, 1 to 365
  std::optional<Date> lot_expiry{};
  std::optional<std::string> supplier{}, supplier_address{}, receipt{};
  std::optional<int> brood_boxes{};
  std::optional<bool> supers_on{};
  std::optional<std::string> operator_name{}, operator_address{};  // none: those of the setup
  std::optional<std::string> reason{};
  std::optional<Conditions> weather{};
  DUSKWALK_FIELDS(f("colony", s.colony), f("on", s.on), f("method", s.method),
                  f("product", s.product), f("registration", s.registration), f("lot", s.lot),
                  f("dose", s.dose), f("withdrawal_days", s.withdrawal_days), f("note", s.note),
                  f("rules", s.rules), f("minute", s.minute), f("days_given", s.days_given),
                  f("lot_expiry", s.lot_expiry), f("supplier", s.supplier),
                  f("supplier_address", s.supplier_address), f("receipt", s.receipt),
                  f("brood_boxes", s.brood_boxes), f("supers_on", s.supers_on),
                  f("operator_name", s.operator_name), f("operator_address", s.operator_address),
                  f("reason", s.reason), f("weather", s.weather))
};

}  // namespace engine
