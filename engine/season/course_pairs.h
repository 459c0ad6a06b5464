// engine/season/course_pairs.h -- the washes before and after a course, and the kill that they
// teach. Internal to season.
#pragma once
#include <optional>
#include <vector>

#include "engine/season/verdict.h"

namespace engine {

// A colony's washes before the first round and after the last.
struct CoursePair {
  ColonyId colony;
  Spell before, after;
};

// As they were walked.
[[nodiscard]] std::vector<Date> rounds_walked(const Farm& farm, const Course& course);
// nullopt: not washed both before and after.
[[nodiscard]] std::optional<CoursePair> pair_of(const Farm& farm, ColonyId colony,
                                                const std::vector<Date>& rounds, Date today);
[[nodiscard]] bool treated_between(const Farm& farm, ColonyId colony, Date from, Date to);
// Of the colonies in the yard that the course treated, in the keeper's order. `rounds` not empty.
[[nodiscard]] std::vector<CoursePair> treated_pairs(const Farm& farm, YardId yard,
                                                    const std::vector<Date>& rounds, Date today);

[[nodiscard]] mites::Wash sum_of(const std::vector<CoursePair>& pairs, Spell CoursePair::*which);
inline constexpr double kPooledSpread = 2;  // several colonies vary by more than chance

// The kill that turns the washes before into those after, whatever untreated colonies did; nullopt:
// no mite was found before. `pairs` not empty.
[[nodiscard]] std::optional<LearnedKill> learned_kill(const Farm& farm, YardId yard,
                                                      const std::vector<Date>& rounds,
                                                      const std::vector<CoursePair>& pairs);
// Only a clear failure is called one: the best that the counts allow falls short of what the weaker
// field trials show.
[[nodiscard]] bool clearly_failed(const Farm& farm, const std::optional<LearnedKill>& learned);

}  // namespace engine
