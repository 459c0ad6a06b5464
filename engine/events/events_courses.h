// engine/events/events_courses.h -- courses and their rounds, the keeper's evenings, drives, the
// air.
#pragma once
#include <optional>
#include <string>
#include <vector>

#include "engine/core/instant.h"
#include "engine/core/terms.h"
#include "engine/core/units.h"
#include "engine/events/event_fields.h"

namespace engine {

// The widest gap between two rounds that can be asked for, in days.
inline constexpr int kGapEver = 60;

// Within what the rounds of a course were asked to lie, so that they still do when they move.
struct RoundsAsked {
  std::optional<Date> latest;          // of a window that closes: no round later
  int gap_least = 0, gap_most = 0;     // days; 1 to kGapEver
  std::optional<int> urgency_percent;  // 10 to 1000; above 100: served before others
  friend bool operator==(const RoundsAsked&, const RoundsAsked&) = default;
  DUSKWALK_FIELDS(f("latest", s.latest), f("gap_least", s.gap_least), f("gap_most", s.gap_most),
                  f("urgency_percent", s.urgency_percent))
};

struct CoursePlanned {
  static constexpr const char* kKind = "course_planned";
  static constexpr KindFacts kFacts{.says = Says::Detail,
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
                                    .noun = {"entry of rounds", "entries of rounds"}};
  CourseId course;
  YardId yard;
  std::vector<Date> rounds;  // rising
  std::optional<RoundsAsked> asked{};
  DUSKWALK_FIELDS(f("course", s.course), f("yard", s.yard), f("rounds", s.rounds),
                  f("asked", s.asked))
};

// Of what is said of a course that is there.
inline constexpr KindFacts kOfKnownCourse{.says = Says::Detail,
                                          .leaves = Leaves::State,
                                          .brings = Brings::Nothing,
                                          .walk = InWalk::No,
                                          .yard = YardIn::Course,
                                          .colonies = ColoniesIn::Nothing,
                                          .moves = Moves::OfItsYard,
                                          .correctable = false,
                                          .in_register = false,
                                          .stands_against = {Refusal::None},
                                          .stands_in_part = {Refusal::None},
                                          .noun = {"entry of rounds", "entries of rounds"}};

// All rounds of the course as they stand now, those already walked among them.
struct CourseChanged {
  static constexpr const char* kKind = "course_changed";
  static constexpr KindFacts kFacts = kOfKnownCourse;
  CourseId course;
  std::vector<Date> rounds;
  std::string reason;
  DUSKWALK_FIELDS(f("course", s.course), f("rounds", s.rounds), f("reason", s.reason))
};

struct CourseEnded {
  static constexpr const char* kKind = "course_ended";
  static constexpr KindFacts kFacts = kOfKnownCourse;
  CourseId course;
  std::string reason;
  DUSKWALK_FIELDS(f("course", s.course), f("reason", s.reason))
};

// The rounds of one course: of a new one when the yard is given, else all rounds of a known one as
// they stand now, those already walked among them.
struct CourseDates {
  CourseId course;
  std::optional<YardId> yard;
  std::vector<Date> rounds;            // rising
  std::optional<RoundsAsked> asked{};  // none: as it was asked before
  friend bool operator==(const CourseDates&, const CourseDates&) = default;
  DUSKWALK_FIELDS(f("course", s.course), f("yard", s.yard), f("rounds", s.rounds),
                  f("asked", s.asked))
};

// Courses of several yards planned or changed in one act, since they share the evenings.
struct CoursesPlanned {
  static constexpr const char* kKind = "courses_planned";
  static constexpr KindFacts kFacts{
      .says = Says::Detail,
      .leaves = Leaves::State,
      .brings = Brings::Nothing,
      .walk = InWalk::No,
      .yard = YardIn::Nothing,
      .colonies = ColoniesIn::Nothing,
      .moves = Moves::OfItsCourses,
      .correctable = false,
      .in_register = false,
      .stands_against = {Refusal::None},
      .stands_in_part = {Refusal::NoSuchCourse, Refusal::NoSuchYard, Refusal::AlreadyThere},
      .noun = {"entry of rounds", "entries of rounds"}};
  std::vector<CourseDates> courses;
  std::string reason;
  DUSKWALK_FIELDS(f("courses", s.courses), f("reason", s.reason))
};

// On which evenings of the week the keeper has time, from now on. None at all: on no evening
// unless one is added (evening_changed).
struct FreeEveningsSet {
  static constexpr const char* kKind = "free_evenings_set";
  static constexpr KindFacts kFacts = kOfTheOutfit;
  std::vector<Weekday> weekdays;
  DUSKWALK_FIELDS(f("weekdays", s.weekdays))
};

// One evening that is not like its weekday.
struct EveningChanged {
  static constexpr const char* kKind = "evening_changed";
  static constexpr KindFacts kFacts = kOfTheOutfit;
  Date on{};
  bool free = false;
  std::string reason;
  DUSKWALK_FIELDS(f("on", s.on), f("free", s.free), f("reason", s.reason))
};

// Nothing could be treated that evening; with the courses as they move because of it.
struct EveningLost {
  static constexpr const char* kKind = "evening_lost";
  static constexpr KindFacts kFacts{
      .says = Says::Detail,
      .leaves = Leaves::State,
      .brings = Brings::Nothing,
      .walk = InWalk::No,
      .yard = YardIn::Nothing,
      .colonies = ColoniesIn::Nothing,
      .moves = Moves::OfItsCourses,
      .correctable = false,
      .in_register = false,
      .stands_against = {Refusal::NoSuchCourse, Refusal::NoSuchYard, Refusal::AlreadyThere},
      .stands_in_part = {Refusal::None},
      .noun = kOtherEntry};
  Date on{};
  LossWhy why = LossWhy::Rain;
  std::string note;
  std::vector<CourseDates> moved;
  DUSKWALK_FIELDS(f("on", s.on), f("why", s.why), f("note", s.note), f("moved", s.moved))
};

// Both ways alike; without `from`: from the keeper's home.
struct DriveTimeSet {
  static constexpr const char* kKind = "drive_time_set";
  static constexpr KindFacts kFacts{.says = Says::Detail,
                                    .leaves = Leaves::State,
                                    .brings = Brings::Nothing,
                                    .walk = InWalk::No,
                                    .yard = YardIn::To,
                                    .colonies = ColoniesIn::Nothing,
                                    .moves = Moves::Nothing,
                                    .correctable = false,
                                    .in_register = false,
                                    .stands_against = {Refusal::None},
                                    .stands_in_part = {Refusal::None},
                                    .noun = kOtherEntry};
  std::optional<YardId> from;
  YardId to;
  int minutes = 0;  // 1 to 600
  DUSKWALK_FIELDS(f("from", s.from), f("to", s.to), f("minutes", s.minutes))
};

// How warm the air will be at sunset or sunrise, as the keeper read or heard it; nothing is assumed
// where nobody said. None: what was said of that day is taken back.
struct AirExpected {
  static constexpr const char* kKind = "air_expected";
  static constexpr KindFacts kFacts = kOfTheOutfit;
  Date on{};
  HomePart part = HomePart::Evening;
  std::optional<Temperature> air;  // -40 to 60 degrees
  DUSKWALK_FIELDS(f("on", s.on), f("part", s.part), f("air", s.air))
};

}  // namespace engine
