// engine/season/headline.h -- a verdict in one line, and why a course may not have worked.
// Internal to season.
#pragma once
#include <string>
#include <vector>

#include "engine/season/verdict.h"

namespace engine {

// From the verdict's effect, failure, colonies and coming_in, which are known already.
[[nodiscard]] Headline headline_of(const Farm& farm, const Course& course,
                                   const CourseVerdict& verdict, Date today);

// What the log has against the course, in an order of our own: what was seen to go wrong before
// what is only possible. The last is always to check what no log can tell.
[[nodiscard]] std::vector<std::string> likely_reasons(const Farm& farm, const Course& course,
                                                      const CourseVerdict& verdict);

}  // namespace engine
