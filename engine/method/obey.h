// engine/method/obey.h -- what a treatment with vapor would be against in the label in force.
//
// Only what the label is known to limit: a limit that is not known is asked for elsewhere ("check
// your label"). What is against it is never proposed, nor what depends on brood nobody looked at;
// where the keeper insists it is held, and stands in the register as against the label.
#pragma once
#include <string>
#include <vector>

#include "engine/method/method.h"

namespace engine {

struct VaporAsked {
  ColonyId colony;
  Date on{};
  bool supers_on = false;
};
// One vapor of one colony, by what it was given before that day; empty: nothing is known against
// it.
[[nodiscard]] std::vector<std::string> against_label(const Farm& farm, const VaporAsked& asked,
                                                     const LabelRules& rules);

// The same for several colonies, honey supers apart: each line once, with how many it holds for.
[[nodiscard]] std::vector<std::string> against_label(const Farm& farm,
                                                     const std::vector<ColonyId>& colonies,
                                                     const LabelRules& rules, Date on);

// Those whose brood the label asks about and the notes do not tell for that day.
[[nodiscard]] std::vector<ColonyId> brood_not_known(const Farm& farm,
                                                    const std::vector<ColonyId>& colonies,
                                                    const LabelRules& rules, Date on);

// "CHECK YOUR LABEL: ..." with how many of them those are; empty: the label does not ask, or all
// are known.
[[nodiscard]] std::string brood_question(const Farm& farm, const std::vector<ColonyId>& colonies,
                                         const LabelRules& rules, Date on);
// The same for the colonies to treat in a yard, by the label in force.
[[nodiscard]] std::string brood_question(const Farm& farm, YardId yard, Date on);

// How many rounds the label in force leaves a yard in a course that begins on that day, where it
// limits them: by the most rounds of a course and the treatments of that calendar year.
[[nodiscard]] std::optional<int> rounds_left(const Farm& farm, YardId yard, Date begins);

// A course of these days, as a whole: how many, how close, how often in each year, with which
// brood. Rounds walked already are behind it and are not judged.
[[nodiscard]] std::vector<std::string> course_against_label(const Farm& farm, YardId yard,
                                                            const std::vector<Date>& rounds);

// What the label in force says of the days between rounds; 1 where it says nothing.
[[nodiscard]] int label_gap(const Farm& farm);

}  // namespace engine
