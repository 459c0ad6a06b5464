// What courses did, asked of the newest first and no further back than the answer needs.
#include <fmt/format.h>

#include <algorithm>

#include "engine/season/course_pairs.h"

namespace engine {
namespace {

struct Walked {
  const Course* course;
  std::vector<Date> rounds;
};

std::vector<Walked> newest_first(const Farm& farm, YardId yard) {
  std::vector<Walked> list;
  for (const auto& [id, course] : farm.courses) {
    if (course.yard != yard) continue;
    if (auto rounds = rounds_walked(farm, course); !rounds.empty())
      list.push_back({&course, std::move(rounds)});
  }
  std::stable_sort(list.begin(), list.end(), [](const Walked& a, const Walked& b) {
    return a.rounds.front() < b.rounds.front();
  });
  std::reverse(list.begin(), list.end());
  return list;
}

// f(outcome) of each that was counted before and after, until it answers false.
template <class F>
void each_outcome(const Farm& farm, YardId yard, Date today, F f) {
  for (const Walked& w : newest_first(farm, yard)) {
    const auto pairs = treated_pairs(farm, yard, w.rounds, today);
    if (pairs.empty()) continue;
    const auto here = controls_here(farm, yard, w.rounds, today);
    if (!f(CourseOutcome{w.course->id, clearly_failed(farm, *w.course, pairs, here)})) return;
  }
}

}  // namespace

std::optional<CourseOutcome> last_outcome(const Farm& farm, YardId yard, Date today) {
  std::optional<CourseOutcome> last;
  each_outcome(farm, yard, today, [&](const CourseOutcome& outcome) {
    last = outcome;
    return false;
  });
  return last;
}

std::optional<FailingYard> failing_yard(const Farm& farm, YardId yard, Date today) {
  int n = 0;
  each_outcome(farm, yard, today, [&](const CourseOutcome& outcome) {
    if (outcome.failed) ++n;
    return outcome.failed;
  });
  if (n < 2) return std::nullopt;
  return FailingYard{
      yard, n,
      fmt::format("{}: the last {} courses failed: {}.", farm.yards.at(yard).name, n, kCheckWhy)};
}

}  // namespace engine
