// engine/farm/event.h -- everything that can happen, as values.
//
// An Event is who (device and its own running number), when (Stamp) and what (one of the kinds
// below). Each kind lists its fields once, in fields(); the journal's JSON, the state hash and the
// tests all read that list. A kind's name and its field names are part of the journal's format:
// add optional fields, never rename or remove one.
#pragma once
#include <cstdint>
#include <optional>
#include <string>
#include <variant>
#include <vector>

#include "engine/core/id.h"
#include "engine/core/instant.h"
#include "engine/core/units.h"
#include "engine/dose/label.h"
#include "engine/farm/terms.h"
#include "engine/order/order.h"
#include "engine/season/threshold.h"
#include "engine/walk/pace.h"

namespace engine {

#define DUSKWALK_FIELDS(...)           \
  template <class Self, class F>       \
  static void fields(Self& s, F&& f) { \
    (void)s, (void)f, __VA_ARGS__;     \
  }

// Names one entry of the journal.
struct EntryRef {
  DeviceId device;
  std::int64_t seq = 0;
  friend auto operator<=>(const EntryRef&, const EntryRef&) = default;
  DUSKWALK_FIELDS(f("device", s.device), f("seq", s.seq))
};

// ---- places ----

struct YardAdded {
  static constexpr const char* kKind = "yard_added";
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
  YardId yard;
  std::optional<std::string> name;
  std::optional<Place> place;
  std::optional<std::string> zone;
  std::optional<std::string> note;
  std::optional<Spot> gate{};  // where the keeper comes in, among the colonies' spots
  DUSKWALK_FIELDS(f("yard", s.yard), f("name", s.name), f("place", s.place), f("zone", s.zone),
                  f("note", s.note), f("gate", s.gate))
};

struct YardLost {
  static constexpr const char* kKind = "yard_lost";
  YardId yard;
  std::string reason;
  DUSKWALK_FIELDS(f("yard", s.yard), f("reason", s.reason))
};

struct ColonyAdded {
  static constexpr const char* kKind = "colony_added";
  ColonyId colony;
  YardId yard;
  std::string name;
  int brood_boxes = 1;  // 1 to 9
  bool supers_on = false;
  std::optional<Spot> spot;
  std::optional<int> order;  // where it comes in the keeper's own walk; by arrival when not given
  std::string note;
  DUSKWALK_FIELDS(f("colony", s.colony), f("yard", s.yard), f("name", s.name),
                  f("brood_boxes", s.brood_boxes), f("supers_on", s.supers_on), f("spot", s.spot),
                  f("order", s.order), f("note", s.note))
};

struct ColonyChanged {
  static constexpr const char* kKind = "colony_changed";
  ColonyId colony;
  std::optional<std::string> name;
  std::optional<int> brood_boxes;
  std::optional<bool> supers_on;
  std::optional<Spot> spot;
  std::optional<int> order;
  std::optional<std::string> note;
  DUSKWALK_FIELDS(f("colony", s.colony), f("name", s.name), f("brood_boxes", s.brood_boxes),
                  f("supers_on", s.supers_on), f("spot", s.spot), f("order", s.order),
                  f("note", s.note))
};

struct ColonyMoved {
  static constexpr const char* kKind = "colony_moved";
  ColonyId colony;
  YardId to;
  std::optional<Spot> spot;
  DUSKWALK_FIELDS(f("colony", s.colony), f("to", s.to), f("spot", s.spot))
};

struct ColonyLost {
  static constexpr const char* kKind = "colony_lost";
  ColonyId colony;
  std::string reason;
  DUSKWALK_FIELDS(f("colony", s.colony), f("reason", s.reason))
};

// ---- kit ----

struct KitAdded {
  static constexpr const char* kKind = "kit_added";
  KitId item;
  KitSort sort = KitSort::Cloth;
  std::string name;
  DUSKWALK_FIELDS(f("item", s.item), f("sort", s.sort), f("name", s.name))
};

struct KitChanged {
  static constexpr const char* kKind = "kit_changed";
  KitId item;
  std::optional<std::string> name;
  std::optional<bool> retired;
  DUSKWALK_FIELDS(f("item", s.item), f("name", s.name), f("retired", s.retired))
};

// A full battery goes into a vaporizer; the one that was in it comes out.
struct BatteryChanged {
  static constexpr const char* kKind = "battery_changed";
  KitId vaporizer;
  KitId battery;
  bool was_empty = false;  // the old one, when it came out
  DUSKWALK_FIELDS(f("vaporizer", s.vaporizer), f("battery", s.battery), f("was_empty", s.was_empty))
};

struct BatteryCharged {
  static constexpr const char* kKind = "battery_charged";
  KitId battery;
  DUSKWALK_FIELDS(f("battery", s.battery))
};

struct VaporizerCleaned {
  static constexpr const char* kKind = "vaporizer_cleaned";
  KitId vaporizer;
  DUSKWALK_FIELDS(f("vaporizer", s.vaporizer))
};

struct FilterChanged {
  static constexpr const char* kKind = "filter_changed";
  KitId respirator;
  std::string cartridge;
  DUSKWALK_FIELDS(f("respirator", s.respirator), f("cartridge", s.cartridge))
};

// A lot arrives, or more of the same lot.
struct StockReceived {
  static constexpr const char* kKind = "stock_received";
  LotId lot;
  std::string product;
  std::string registration;
  std::string code;  // batch or lot number on the container
  std::optional<Date> expiry;
  Mass amount;
  std::string supplier;
  std::string receipt;
  DUSKWALK_FIELDS(f("lot", s.lot), f("product", s.product), f("registration", s.registration),
                  f("code", s.code), f("expiry", s.expiry), f("amount", s.amount),
                  f("supplier", s.supplier), f("receipt", s.receipt))
};

// ---- season ----

struct CountTaken {
  static constexpr const char* kKind = "count_taken";
  ColonyId colony;
  Date on{};
  CountMethod method = CountMethod::AlcoholWash;
  int mites = 0;
  std::optional<int> bees;   // washes and rolls
  std::optional<int> hours;  // sticky boards
  std::string note;
  DUSKWALK_FIELDS(f("colony", s.colony), f("on", s.on), f("method", s.method), f("mites", s.mites),
                  f("bees", s.bees), f("hours", s.hours), f("note", s.note))
};

struct CoursePlanned {
  static constexpr const char* kKind = "course_planned";
  CourseId course;
  YardId yard;
  std::vector<Date> rounds;  // rising
  DUSKWALK_FIELDS(f("course", s.course), f("yard", s.yard), f("rounds", s.rounds))
};

// All rounds of the course as they stand now, those already walked among them.
struct CourseChanged {
  static constexpr const char* kKind = "course_changed";
  CourseId course;
  std::vector<Date> rounds;
  std::string reason;
  DUSKWALK_FIELDS(f("course", s.course), f("rounds", s.rounds), f("reason", s.reason))
};

struct CourseEnded {
  static constexpr const char* kKind = "course_ended";
  CourseId course;
  std::string reason;
  DUSKWALK_FIELDS(f("course", s.course), f("reason", s.reason))
};

// The rounds of one course: of a new one when the yard is given, else all rounds of a known one as
// they stand now, those already walked among them.
struct CourseDates {
  CourseId course;
  std::optional<YardId> yard;
  std::vector<Date> rounds;  // rising
  friend bool operator==(const CourseDates&, const CourseDates&) = default;
  DUSKWALK_FIELDS(f("course", s.course), f("yard", s.yard), f("rounds", s.rounds))
};

// Courses of several yards planned or changed in one act, since they share the evenings.
struct CoursesPlanned {
  static constexpr const char* kKind = "courses_planned";
  std::vector<CourseDates> courses;
  std::string reason;
  DUSKWALK_FIELDS(f("courses", s.courses), f("reason", s.reason))
};

// On which evenings of the week the keeper has time, from now on. None at all: on no evening
// unless one is added (evening_changed).
struct FreeEveningsSet {
  static constexpr const char* kKind = "free_evenings_set";
  std::vector<Weekday> weekdays;
  DUSKWALK_FIELDS(f("weekdays", s.weekdays))
};

// One evening that is not like its weekday.
struct EveningChanged {
  static constexpr const char* kKind = "evening_changed";
  Date on{};
  bool free = false;
  std::string reason;
  DUSKWALK_FIELDS(f("on", s.on), f("free", s.free), f("reason", s.reason))
};

// Nothing could be treated that evening; with the courses as they move because of it.
struct EveningLost {
  static constexpr const char* kKind = "evening_lost";
  Date on{};
  LossWhy why = LossWhy::Rain;
  std::string note;
  std::vector<CourseDates> moved;
  DUSKWALK_FIELDS(f("on", s.on), f("why", s.why), f("note", s.note), f("moved", s.moved))
};

// Both ways alike; without `from`: from the keeper's home.
struct DriveTimeSet {
  static constexpr const char* kKind = "drive_time_set";
  std::optional<YardId> from;
  YardId to;
  int minutes = 0;  // 1 to 600
  DUSKWALK_FIELDS(f("from", s.from), f("to", s.to), f("minutes", s.minutes))
};

struct BroodNoted {
  static constexpr const char* kKind = "brood_noted";
  std::vector<ColonyId> colonies;
  Date on{};
  BroodFact what = BroodFact::BroodSeen;
  std::string note;
  DUSKWALK_FIELDS(f("colonies", s.colonies), f("on", s.on), f("what", s.what), f("note", s.note))
};

// ---- the walk ----

struct Conditions {
  std::optional<Temperature> temperature;
  Flight flight = Flight::None;
  std::optional<int> wind_from_deg;  // 0 = north, 90 = east, as weather reports give it
  std::optional<int> wind_dm_s;      // tenths of metres per second
  bool rain = false;
  friend bool operator==(const Conditions&, const Conditions&) = default;
  DUSKWALK_FIELDS(f("temperature", s.temperature), f("flight", s.flight),
                  f("wind_from_deg", s.wind_from_deg), f("wind_dm_s", s.wind_dm_s),
                  f("rain", s.rain))
};

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
  WalkId walk;
  Protection item = Protection::Respirator;
  DUSKWALK_FIELDS(f("walk", s.walk), f("item", s.item))
};

struct VaporizerSet {
  static constexpr const char* kKind = "vaporizer_set";
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

// The vaporizer is lifted out and the entrance closed. A cloth that lies elsewhere was taken there.
struct ColonyCovered {
  static constexpr const char* kKind = "colony_covered";
  WalkId walk;
  ColonyId colony;
  KitId cloth;
  DUSKWALK_FIELDS(f("walk", s.walk), f("colony", s.colony), f("cloth", s.cloth))
};

// The cloth is taken away; or, from under vapor, the vaporizer is lifted and nothing closes it.
struct ColonyUncovered {
  static constexpr const char* kKind = "colony_uncovered";
  WalkId walk;
  ColonyId colony;
  DUSKWALK_FIELDS(f("walk", s.walk), f("colony", s.colony))
};

struct ColonyPassedOver {
  static constexpr const char* kKind = "colony_passed_over";
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
  WalkId walk;
  std::optional<ColonyId> colony;
  Flight flight = Flight::None;
  DUSKWALK_FIELDS(f("walk", s.walk), f("colony", s.colony), f("flight", s.flight))
};

struct Mishap {
  static constexpr const char* kKind = "mishap";
  WalkId walk;
  std::optional<ColonyId> colony;  // none: it happened to the keeper or beside the hives
  MishapKind what = MishapKind::Dropped;
  std::string note;
  DUSKWALK_FIELDS(f("walk", s.walk), f("colony", s.colony), f("what", s.what), f("note", s.note))
};

struct WalkPaused {
  static constexpr const char* kKind = "walk_paused";
  WalkId walk;
  DUSKWALK_FIELDS(f("walk", s.walk))
};

struct WalkResumed {
  static constexpr const char* kKind = "walk_resumed";
  WalkId walk;
  DUSKWALK_FIELDS(f("walk", s.walk))
};

struct WalkClosed {
  static constexpr const char* kKind = "walk_closed";
  WalkId walk;
  DUSKWALK_FIELDS(f("walk", s.walk))
};

// ---- the rest ----

// The keeper says that a colony on the come-back list needs no further visit.
struct ComeBackSettled {
  static constexpr const char* kKind = "come_back_settled";
  ColonyId colony;
  std::string reason;
  DUSKWALK_FIELDS(f("colony", s.colony), f("reason", s.reason))
};

struct OtherTreatmentGiven {
  static constexpr const char* kKind = "other_treatment_given";
  ColonyId colony;
  Date on{};
  Method method = Method::Other;
  std::string product;
  std::string registration;
  std::string lot;
  std::string dose;  // as the keeper writes it: "50 mL", "2 strips"
  int withdrawal_days = 0;
  std::string note;
  std::optional<std::string> rules{};  // id of the method's rules (engine/dose/method.h)
  DUSKWALK_FIELDS(f("colony", s.colony), f("on", s.on), f("method", s.method),
                  f("product", s.product), f("registration", s.registration), f("lot", s.lot),
                  f("dose", s.dose), f("withdrawal_days", s.withdrawal_days), f("note", s.note),
                  f("rules", s.rules))
};

struct NoteWritten {
  static constexpr const char* kKind = "note";
  std::optional<YardId> yard;
  std::optional<ColonyId> colony;
  std::string text;
  DUSKWALK_FIELDS(f("yard", s.yard), f("colony", s.colony), f("text", s.text))
};

// Only the fields that are given change.
struct SetupChanged {
  static constexpr const char* kKind = "setup_changed";
  std::optional<std::string> operator_name;
  std::optional<std::string> operator_address;
  std::optional<TemperatureUnit> temperature_unit;
  std::optional<MassUnit> mass_unit;
  std::optional<Theme> theme;
  std::optional<LabelRules> rules;
  std::optional<Place> home{};  // where the keeper sets out from
  std::optional<Thresholds> thresholds{};
  std::optional<int> clean_every{};      // settings of a vaporizer between cleanings, 1 to 999
  std::optional<int> cartridge_hours{};  // worn until a cartridge is changed, 1 to 999
  std::optional<Pace> pace{};
  DUSKWALK_FIELDS(f("operator_name", s.operator_name), f("operator_address", s.operator_address),
                  f("temperature_unit", s.temperature_unit), f("mass_unit", s.mass_unit),
                  f("theme", s.theme), f("rules", s.rules), f("home", s.home),
                  f("thresholds", s.thresholds), f("clean_every", s.clean_every),
                  f("cartridge_hours", s.cartridge_hours), f("pace", s.pace))
};

// Takes an entry back; it stays readable, with the reason.
struct EntryStruck {
  static constexpr const char* kKind = "entry_struck";
  EntryRef entry;
  std::string reason;
  DUSKWALK_FIELDS(f("entry", s.entry), f("reason", s.reason))
};

// This tablet has seen events of others up to that clock (engine/farm/together.h): what it enters
// from now on comes after them, whatever its own wall clock says.
struct ClockFollowed {
  static constexpr const char* kKind = "clock_followed";
  std::int64_t after_utc_ms = 0;
  DUSKWALK_FIELDS(f("after_utc_ms", s.after_utc_ms))
};

// The keeper has looked at what several tablets say, and says what holds.
struct ContradictionSettled {
  static constexpr const char* kKind = "contradiction_settled";
  std::vector<EntryRef> entries;  // all its sides
  std::string decision;
  DUSKWALK_FIELDS(f("entries", s.entries), f("decision", s.decision))
};

#undef DUSKWALK_FIELDS

using Body =
    std::variant<YardAdded, YardChanged, YardLost, ColonyAdded, ColonyChanged, ColonyMoved,
                 ColonyLost, KitAdded, KitChanged, BatteryChanged, BatteryCharged, VaporizerCleaned,
                 FilterChanged, StockReceived, CountTaken, CoursePlanned, CourseChanged,
                 CourseEnded, CoursesPlanned, FreeEveningsSet, EveningChanged, EveningLost,
                 DriveTimeSet, BroodNoted, WalkOpened, ProtectionConfirmed, VaporizerSet,
                 ColonyCovered, ColonyUncovered, ColonyPassedOver, BeesFlying, Mishap, WalkPaused,
                 WalkResumed, WalkClosed, ComeBackSettled, OtherTreatmentGiven, NoteWritten,
                 SetupChanged, EntryStruck, ClockFollowed, ContradictionSettled>;

struct Event {
  EntryRef ref;
  Stamp stamp;
  Body body;
};

// The kind's name as it stands in the journal.
[[nodiscard]] const char* kind(const Body& body);

// An empty body of that kind, or nullopt when no such kind exists.
[[nodiscard]] std::optional<Body> body_of_kind(std::string_view kind);

}  // namespace engine
