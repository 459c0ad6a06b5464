// engine/calendar/propose.h -- rounds proposed for the keeper to take: new courses, rounds that
// were missed, rounds of an evening that was lost. Nothing changes until the proposal's event is
// taken.
#pragma once
#include <optional>
#include <string>
#include <vector>

#include "engine/calendar/calendar.h"
#include "engine/method/method.h"

namespace engine {

// What is wanted of one yard.
struct CourseWish {
  YardId yard;
  CourseId course;  // a fresh id
  int rounds = 4;
  Date earliest{};
  std::optional<Date> latest;  // of a window that closes
  int gap_least = kGapLeast, gap_most = kGapMost;
  double urgency = 1;  // above 1: more mites, first served
};

struct Surrounding {
  Date today{};
  const MethodRules* vapor =
      nullptr;  // its spacing and most rounds; the label in force goes before
  EveningHolds holds;
  bool insist = false;  // the keeper holds to rounds that the label forbids
};

struct Proposal {
  std::vector<CourseDates> courses;  // what changes; ready for CoursesPlanned or EveningLost
  std::vector<std::string> lines;    // for the keeper, a line a yard, then what could not be kept
  int evenings = 0;
  std::vector<std::string> refused{};  // among the lines: what the label left out, yard by yard
  std::vector<std::string> against{};  // of an insisting keeper's: what the label says of it
  // What the label asks of the brood on a course's first evening and the notes do not tell.
  std::vector<std::string> unanswered{};
  [[nodiscard]] bool empty() const { return courses.empty(); }
};

// Open courses keep their evenings. A yard's rounds are bounded by what the label leaves of a
// course and of the year; where it leaves none, forbids the brood that was seen, or asks about
// brood that nobody noted, there are none.
[[nodiscard]] Proposal propose_courses(const Farm& farm, const std::vector<CourseWish>& wishes,
                                       const Surrounding& around);

// For EveningLost on `lost`: the rounds of that evening and those that follow them, on new
// evenings. Courses without a round that evening stay, unless that breaks a spacing.
[[nodiscard]] Proposal propose_after_loss(const Farm& farm, Date lost, const Surrounding& around);

// For CoursesPlanned: courses with a round that was due before today and not walked.
[[nodiscard]] Proposal propose_for_missed(const Farm& farm, const Surrounding& around);

// One visit to one yard on one evening.
struct Visit {
  Date on{};
  YardId yard;
  std::optional<CourseId> course;    // its next round
  std::vector<ColonyId> come_backs;  // to be treated on the way, or what the visit is for
};
// A come-back waits for the yard's next round when that comes within this many days; common
// practice, no published source. What a walk that ended early did not reach does not wait: it is
// for the next free evening.
inline constexpr int kComeBackWaits = 7;
// From today on, by day, each yard's next round and every come-back colony in a visit: with the
// yard's next round, else on the next free evening with room.
[[nodiscard]] std::vector<Visit> visits(const Farm& farm, const Surrounding& around);

}  // namespace engine
