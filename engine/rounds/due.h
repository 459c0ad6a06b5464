// engine/rounds/due.h -- which yards, rounds, colonies and counts are due on a day.
#pragma once
#include <optional>
#include <vector>

#include "engine/farm/queries.h"

namespace engine {

// A round counts as walked by the first walk that was opened for its course and treated a colony,
// or that treated at least half of the yard without saying for which course; opened not earlier
// than the day before the round was due, and not yet spent on an earlier round.
struct RoundState {
  Date planned{};
  std::optional<WalkId> walked;
};
[[nodiscard]] std::vector<RoundState> rounds_of(const Farm& farm, const Course& course);

// The day of the last round when all are walked, or when the course ended after one was.
[[nodiscard]] std::optional<Date> course_done_on(const Farm& farm, const Course& course);

struct DueRound {
  YardId yard;
  CourseId course;
  int number = 1;  // from 1
  int of = 1;
  Date planned{};
  int days_over = 0;  // 0: due that day; negative: still to come
};

struct DueCount {
  YardId yard;
  std::optional<Date> last;  // none: never counted
  int days_since = 0;        // since the last count, when there was one
};

// A course whose rounds are all walked wants a count, to see whether it worked.
struct DuePostCount {
  YardId yard;
  CourseId course;
  Date last_round{};  // when it was walked
  Date planned{};
  int days_over = 0;  // negative: still to come
};

struct Due {
  std::vector<DueRound> rounds;  // due or overdue, most overdue first
  std::vector<DueRound> coming;  // the next round of each other course, soonest first
  std::vector<ComeBack> come_backs;
  std::vector<DueCount> counts;           // longest uncounted first
  std::vector<DuePostCount> post_counts;  // by day, those to come among them
};

// Common practice, no published source: in season each yard is counted about monthly.
inline constexpr int kDaysBetweenCounts = 30;

// A wash within about four days of a round shows too few mites; two weeks on it can be trusted
// (what the model says; published field work counts at about that distance too).
inline constexpr int kDaysToPostCount = 14;
// A count that comes this early is taken for the count after, so that nobody is asked twice.
inline constexpr int kDaysToPostLeast = 10;
// After so long a count says more about what came in since than about the rounds.
inline constexpr int kDaysPostAsked = 60;

[[nodiscard]] Due due_on(const Farm& farm, Date on);

}  // namespace engine
