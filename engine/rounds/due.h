// engine/rounds/due.h -- which yards, rounds, colonies and counts are due on a day.
#pragma once
#include <optional>
#include <string>
#include <vector>

#include "engine/farm/queries.h"

namespace engine {

// A round counts as walked by the first walk that was opened for its course and treated a colony,
// or that treated at least half of the yard without saying for which course; opened not earlier
// than the day before the round was due, and not yet spent on an earlier round.
struct RoundState {
  Date planned{};
  std::optional<WalkId> walked;
  // Of a walked one: the colonies that got vapor in that walk or in a visit before the next round,
  // and those that should have. `of` are those of the walk, those that earlier rounds of the course
  // met in the yard, and for the last round walked all that stand there now; no dead-outs.
  std::size_t treated = 0, of = 0;
  [[nodiscard]] bool whole() const { return walked && treated >= of; }
};
// "walked" of a whole round, "8 of 16 treated" of any other that was walked.
[[nodiscard]] std::string walked_words(const RoundState& round);
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

// A count decides only with its sample: a wash or a roll without the bees that were in it, or a
// board without its hours, is none, and asks for them until the colony is counted again.
[[nodiscard]] bool whole_count(const CountTaken& count);

struct DueSample {
  EntryRef entry;
  YardId yard;
  ColonyId colony;
  CountTaken taken;
};
// Of the colony, up to that day: those newer than its last whole wash or roll, oldest first.
[[nodiscard]] std::vector<DueSample> samples_missing(const Farm& farm, ColonyId colony, Date on);

struct DueCount {
  YardId yard;
  std::optional<Date> last;  // none: never counted, or no count is whole
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
  std::vector<DueSample> samples{};       // by yard name, then in the keeper's order
  std::vector<ColonyId> dead_outs{};      // likewise; found dead, not yet marked lost
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
