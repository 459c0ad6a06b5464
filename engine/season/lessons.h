// engine/season/lessons.h -- what one course of the keeper's teaches of the kill of a round, as the
// model of mites takes it (engine/mites/learn_kill.h). Internal to season.
#pragma once
#include <optional>
#include <vector>

#include "engine/mites/learn_kill.h"
#include "engine/season/course_pairs.h"

namespace engine {

// The colonies of a course in groups that were treated alike and counted on the same days, each
// with the colony that the model assumes for them and the days on which they got vapor. Left out:
// who was given anything but vapor between the two counts. A group's load is of no consequence:
// without mites from outside the ratio of two washes does not depend on it.
[[nodiscard]] std::vector<mites::TaughtCourse> taught_by(const Farm& farm, const Course& course,
                                                         const std::vector<CoursePair>& treated);

// Grams of dihydrate a brood box that the rounds of the course gave on the mean; the usual dose
// where no setting tells it.
[[nodiscard]] double course_dose_g(const Farm& farm, const Course& course);

// Percent fewer mites per bee that the groups would show after rounds at the field end of the kill:
// against what untreated colonies would (`against_untreated`), or against the count before.
[[nodiscard]] double field_percent(const std::vector<mites::TaughtCourse>& groups,
                                   bool against_untreated);

// The vaporizer that gave most of the colonies' vapor from day to day.
[[nodiscard]] std::optional<KitId> main_vaporizer(const Farm& farm,
                                                  const std::vector<CoursePair>& treated, Date from,
                                                  Date to);

}  // namespace engine
