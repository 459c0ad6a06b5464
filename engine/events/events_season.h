// engine/events/events_season.h -- counts, courses and their evenings, brood, other treatments.
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
  DUSKWALK_FIELDS(f("colony", s.colony), f("on", s.on), f("method", s.method), f("mites", s.mites),
                  f("bees", s.bees), f("hours", s.hours), f("note", s.note), f("count", s.count))
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

// How warm the air will be at sunset or sunrise, as the keeper read or heard it; nothing is assumed
// where nobody said. None: what was said of that day is taken back.
struct AirExpected {
  static constexpr const char* kKind = "air_expected";
  Date on{};
  HomePart part = HomePart::Evening;
  std::optional<Temperature> air;  // -40 to 60 degrees
  DUSKWALK_FIELDS(f("on", s.on), f("part", s.part), f("air", s.air))
};

struct BroodNoted {
  static constexpr const char* kKind = "brood_noted";
  std::vector<ColonyId> colonies;
  Date on{};
  BroodFact what = BroodFact::BroodSeen;
  std::string note;
  DUSKWALK_FIELDS(f("colonies", s.colonies), f("on", s.on), f("what", s.what), f("note", s.note))
};

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
