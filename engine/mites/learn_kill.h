// engine/mites/learn_kill.h -- how well this keeper's rounds kill, learned from washes before and
// after courses.
//
// One hidden quantity z stands for the keeper's rounds, whatever the dose. At a dose the logit of
// the kill is a straight line in z on which the field and the exposed kill of that dose
// (engine/mites/treatment.h) are the 10 % and the 90 % point of a standard normal z. So the band
// that is shown before any course is the prior's middle 80 %, and what a course teaches at one dose
// holds at another.
//
// A colony's washes before and after are one pair. Given how many mites they show together, the
// number after is binomial, with a chance in which the colony's own level drops out. The logarithm
// of the likelihood is divided by an overdispersion, because colonies differ by more than chance.
// The posterior is summed on a grid of z, so that nothing is approximated but the grid.
#pragma once
#include <array>
#include <cstddef>
#include <span>
#include <vector>

#include "engine/mites/counting.h"
#include "engine/mites/run.h"

namespace engine::mites {

inline constexpr std::size_t kLearnPoints = 161;  // z from -4 to 4, each 0.05
using LearnGrid = std::array<double, kLearnPoints>;
[[nodiscard]] double learn_point(std::size_t i);

// The kill of a round of so many grams, 0 to 1. Field and exposed kill of the dose must lie
// strictly between 0 and 1 (`teaches_at`).
[[nodiscard]] double kill_at(double z, double dose_g, const Constants& constants);
[[nodiscard]] bool teaches_at(double dose_g, const Constants& constants);

struct WashPair {
  Wash before, after;
};

// Colonies that were treated alike and counted on the same days. `treatment.kill` is not read.
struct TaughtCourse {
  Colony colony;
  MiteLoad load;
  Treatment treatment;
  double dose_g = 1;
  int pre_day = 0, post_day = 0;  // 0 <= pre_day < post_day
  std::vector<WashPair> pairs;
};

// The modelled wash of the post day over that of the pre day, at one kill; and at each point of the
// grid. Not a number where the pre day has no mites, or a day no bees.
[[nodiscard]] double modelled_ratio(const TaughtCourse& course, double kill);
[[nodiscard]] LearnGrid modelled_ratios(const TaughtCourse& course);

// How much more the pairs differ than chance lets them: Pearson's statistic around their common
// ratio, drawn towards 3 with the weight of 5 degrees of freedom, and 1 at the least. Six published
// comparisons gave 5.1, 3.1, 2.4, 2.6, 3.6 and 2.4 (computed from the raw counts of the trials in
// tests/reference/mites_trials_test.cpp).
inline constexpr double kSpreadPrior = 3, kSpreadWeight = 5;
struct PairSpread {
  double x2 = 0;
  int df = 0;
};
[[nodiscard]] PairSpread pair_spread(std::span<const WashPair> pairs);
[[nodiscard]] double overdispersion(const PairSpread& spread);

// Log likelihood of the pairs at each point, not yet divided by the overdispersion. Ratios that are
// no numbers teach nothing.
[[nodiscard]] LearnGrid log_likelihood(const LearnGrid& ratios, std::span<const WashPair> pairs);

// What one course says: the sum over its groups of colonies, divided by the course's phi.
struct Lesson {
  double phi = kSpreadPrior;
  LearnGrid log_likelihood{};
};
[[nodiscard]] Lesson lesson_of(const TaughtCourse& course);
// A course whose colonies were counted or treated on different days, as groups that were not.
[[nodiscard]] Lesson lesson_of(std::span<const TaughtCourse> groups);

// The posterior of z.
class LearnedZ {
 public:
  // The prior, and then the sum of what lessons said.
  LearnedZ() : LearnedZ(LearnGrid{}) {}
  explicit LearnedZ(const LearnGrid& log_likelihood);
  // The first point whose cumulative weight (that of the points below and half its own) reaches q,
  // linear back to the point before it. 0 < q < 1.
  [[nodiscard]] double quantile(double q) const;

 private:
  LearnGrid cumulative_{};
};

}  // namespace engine::mites
