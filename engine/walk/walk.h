// engine/walk/walk.h -- one pass through one yard, as a value.
//
// Pure: "now" is a Stamp that is handed in; the past is the list of events applied. Phases:
//
//     to do -> under vapor -> covered -> done        (set, cover, uncover)
//     to do -> passed over
//
// From under vapor a colony may also go straight to done (lifted, nothing closes the entrance). A
// colony that is done or was passed over may be set again: each setting is one Treatment.
// A cloth that lies on one colony and is put on another was taken from the first at that moment;
// the first is then done, with its uncovering marked as inferred.
#pragma once
#include <optional>
#include <set>
#include <string>
#include <vector>

#include "engine/events/event.h"
#include "engine/events/refusal.h"

namespace engine {

enum class Phase { ToDo, UnderVapor, Covered, Done, PassedOver };
constexpr std::array<const char*, 5> enum_names(Phase) {
  return {"to_do", "under_vapor", "covered", "done", "passed_over"};
}

// The vaporizer stands in the colony and gives no vapor.
struct Halt {
  Stamp since;
  HaltWhy why = HaltWhy::BatteryEmpty;
};

struct Treatment {
  EntryRef entry;  // its setting
  KitId vaporizer;
  std::optional<KitId> battery;
  std::optional<LotId> lot;
  Mass dose;
  int brood_boxes = 1;
  bool supers_on = false;
  bool over_label = false;
  Stamp set_at;
  std::optional<Stamp> lifted_at;  // covered, or lifted and left open
  std::optional<KitId> cloth;
  std::optional<Stamp> uncovered_at;  // equal to lifted_at when nothing closed the entrance
  bool uncover_inferred = false;
  bool lift_inferred = false;    // nobody noted it, but the vaporizer stood elsewhere after
  Flight flight = Flight::None;  // the strongest from its setting to its lifting
  // Entered afterwards (engine/walk/late.h): how long it dwelt and was closed, where known.
  bool late = false;
  std::optional<Seconds> late_dwell{}, late_seal{};
  // Where the vaporizer gave no vapor for a while: since when it rests, how often and how long it
  // rested in all.
  std::optional<Halt> halted{};
  int halts = 0;
  Elapsed rested{};
};

struct StopMishap {
  EntryRef entry;
  MishapKind what = MishapKind::Dropped;
  std::string note;
  Stamp at;
};

// One colony of the walk.
struct Stop {
  ColonyId colony;
  Phase phase = Phase::ToDo;
  std::vector<Treatment> treatments;  // the last one is under way while under vapor or covered
  std::optional<PassReason> passed;   // why, while passed over
  std::string pass_note;
  std::optional<Stamp> passed_at;
  std::optional<Flight> flight;  // the last one noted of this colony
  std::vector<StopMishap> mishaps;
};

struct Walk {
  WalkId id;
  YardId yard;
  DeviceId device;
  std::optional<CourseId> course;
  Stamp opened;
  Conditions conditions;
  LabelRules rules;
  std::vector<KitId> vaporizers;
  std::vector<KitId> cloths;
  std::optional<KitId> respirator;
  std::string operator_name;
  std::string operator_address;
  std::string reason;
  std::set<Protection> confirmed;
  std::vector<Stop> stops;          // in the order the keeper walks
  Flight flight = Flight::None;     // of the yard, the last one noted
  std::vector<StopMishap> mishaps;  // those of no colony
  std::optional<Stamp> paused;
  std::optional<Stamp> closed;          // by the keeper, or when the next walk was opened
  std::vector<PlannedVisit> planned{};  // what it set out with; empty: no plan
  bool past = false;                    // made of late entries alone
  std::optional<LossWhy> closed_why{};  // it ended early
};

// Starting a walk. Requires that the event was allowed by the farm.
[[nodiscard]] Walk begin(const Event& e, const WalkOpened& opened);

// Why an event of this walk is impossible, or None; and the walk after it (requires None). Events
// of other kinds are none of its business and leave it as it is.
[[nodiscard]] Refusal why_not(const Walk& walk, const Body& body);
[[nodiscard]] Walk apply(Walk walk, const Event& e);

// The walk after an event that is on record, also where another that led up to it was struck since:
// what must have happened between is inferred (a vaporizer that stands elsewhere was lifted).
// The kind's facts say against which refusals a record stands (events/kind_facts.h).
[[nodiscard]] Walk apply_record(Walk walk, const Event& e);

// `sum`: all that the colony got that day, this walk's last setting included; over the label's
// most, that setting stands as over the label.
[[nodiscard]] Walk note_day_sum(Walk walk, ColonyId colony, Mass sum);

// The cloth turned up elsewhere, or the colony was set anew: its seal ended no later than that.
[[nodiscard]] Walk infer_uncovered(Walk walk, ColonyId colony, const Stamp& at);

[[nodiscard]] const Stop* find_stop(const Walk& walk, ColonyId colony);
[[nodiscard]] bool protection_complete(const Walk& walk);
// Every colony is done or passed over: nothing is left to do, nothing is closed.
[[nodiscard]] bool complete(const Walk& walk);
[[nodiscard]] inline bool under_way(const Walk& walk) { return !walk.closed; }
// The colony the vaporizer stands in.
[[nodiscard]] const Stop* stands_in(const Walk& walk, KitId vaporizer);
// The colony the cloth lies on.
[[nodiscard]] const Stop* lies_on(const Walk& walk, KitId cloth);

// Holds after every apply: phases agree with the last treatment, no vaporizer stands and no cloth
// lies in two places, no colony stands twice.
[[nodiscard]] bool well_formed(const Walk& walk);

}  // namespace engine
