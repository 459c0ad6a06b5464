// engine/season/course_pairs.h -- the washes before and after a course, and what they show.
// Internal to season.
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

// Colonies of the yard that were given nothing between their two washes, counted when the treated
// were.
[[nodiscard]] std::vector<CoursePair> controls_here(const Farm& farm, YardId yard,
                                                    const std::vector<Date>& rounds, Date today);
// A colony of any yard, likewise.
[[nodiscard]] std::optional<CoursePair> control(const Farm& farm, ColonyId colony,
                                                const std::vector<Date>& rounds, Date today);

// By Henderson and Tilton where there are untreated colonies, else the change. Several colonies
// differ by more than chance: their limits are widened by the overdispersion that they show
// themselves (engine/mites/learn_kill.h). `treated` not empty.
[[nodiscard]] mites::Efficacy effect_of(const std::vector<CoursePair>& treated,
                                        const std::vector<CoursePair>& untreated);

// Only a clear failure is called one: the best that the counts allow falls short of what rounds at
// the field end of the kill would have done. `here`: the yard's untreated colonies, whose change
// takes the place of the model's growth where there are any.
[[nodiscard]] bool clearly_failed(const Farm& farm, const Course& course,
                                  const std::vector<CoursePair>& treated,
                                  const std::vector<CoursePair>& here);

}  // namespace engine
