// The limits of an efficacy from several colonies, beside a bootstrap by colony, on invented yards
// whose colonies differ as those of published trials do.
//
// Bootstrap: Efron and Tibshirani, An Introduction to the Bootstrap (1993), percentile interval;
// colonies are drawn with replacement, treated and untreated each for themselves. The invented
// colonies: a mean wash of 4 per 100 that differs between colonies by a gamma of shape 2, and a
// change of their own (a normal in logarithms, 0.65 wide: with it the overdispersion comes out near
// 3, the mean of the six comparisons of engine/mites/learn_kill.h). Seed 20261201.
#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <random>
#include <vector>

#include "engine/mites/efficacy.h"
#include "engine/mites/learn_kill.h"

namespace efficacy_limits_test {

using namespace engine::mites;

namespace {

constexpr double kTreatedKeeps = 0.4, kUntreatedKeeps = 1.6;
constexpr double kTrue = 100 * (1 - kTreatedKeeps / kUntreatedKeeps);
constexpr std::size_t kColonies = 10;
using Pairs = std::vector<WashPair>;
using Dice = std::mt19937_64;

Pairs yard(Dice& dice, double keeps) {
  // The mean of the colonies' own changes is one.
  constexpr double kOwn = 0.65;
  std::gamma_distribution<double> level(2, 0.02);
  std::normal_distribution<double> own(-kOwn * kOwn / 2, kOwn);
  Pairs pairs;
  for (std::size_t i = 0; i < kColonies; ++i) {
    const double per_bee = level(dice), after = per_bee * keeps * std::exp(own(dice));
    pairs.push_back({{std::poisson_distribution<std::int64_t>(300 * per_bee)(dice), 300},
                     {std::poisson_distribution<std::int64_t>(300 * after)(dice), 300}});
  }
  return pairs;
}

Efficacy effect(const Pairs& treated, const Pairs& untreated, double phi) {
  EfficacyCounts c{{0, 0}, {0, 0}, {0, 0}, {0, 0}};
  const auto add = [](Wash& sum, const Wash& w) { sum.mites += w.mites, sum.bees += w.bees; };
  for (const WashPair& p : treated) add(c.treated_before, p.before), add(c.treated_after, p.after);
  for (const WashPair& p : untreated)
    add(c.control_before, p.before), add(c.control_after, p.after);
  return efficacy(EfficacyMethod::HendersonTilton, c, phi);
}

double estimated_phi(const Pairs& treated, const Pairs& untreated) {
  const PairSpread a = pair_spread(treated), b = pair_spread(untreated);
  return overdispersion({a.x2 + b.x2, a.df + b.df});
}

Pairs drawn(const Pairs& from, Dice& dice) {
  std::uniform_int_distribution<std::size_t> which(0, from.size() - 1);
  Pairs out;
  for (std::size_t i = 0; i < from.size(); ++i) out.push_back(from[which(dice)]);
  return out;
}

Limits bootstrap(const Pairs& treated, const Pairs& untreated, Dice& dice) {
  std::vector<double> all;
  for (int i = 0; i < 400; ++i)
    all.push_back(effect(drawn(treated, dice), drawn(untreated, dice), 1).percent);
  std::sort(all.begin(), all.end());
  return {all[10], all[389]};
}

// In logarithms of what is left, where the limits are symmetric.
double width(double low, double high) { return std::log((100 - low) / (100 - high)); }

struct Seen {
  int estimated = 0, fixed = 0, resampled = 0;  // trials whose limits hold the truth
  double width_ratio = 0, phi = 0;              // means
};

Seen seen(int trials) {
  Dice dice(20261201);
  Seen s;
  for (int i = 0; i < trials; ++i) {
    const Pairs t = yard(dice, kTreatedKeeps), c = yard(dice, kUntreatedKeeps);
    const double phi = estimated_phi(t, c);
    const Efficacy own = effect(t, c, phi), two = effect(t, c, 2);
    const Limits boot = bootstrap(t, c, dice);
    s.estimated += own.low <= kTrue && kTrue <= own.high;
    s.fixed += two.low <= kTrue && kTrue <= two.high;
    s.resampled += boot.low <= kTrue && kTrue <= boot.high;
    s.width_ratio += width(own.low, own.high) / width(boot.low, boot.high) / trials;
    s.phi += phi / trials;
  }
  return s;
}

}  // namespace

TEST_CASE(
    "limits by the estimated spread are as wide as a bootstrap by colony, and hold the truth") {
  constexpr int kTrials = 300;
  const Seen s = seen(kTrials);
  CAPTURE(s.estimated);
  CAPTURE(s.fixed);
  CAPTURE(s.resampled);
  CAPTURE(s.phi);
  CHECK(s.phi == doctest::Approx(3).epsilon(0.2));
  CHECK(s.width_ratio > 0.85);
  CHECK(s.width_ratio < 1.25);
  CHECK(s.estimated >= 0.9 * kTrials);
  CHECK(s.estimated >= s.resampled - 0.02 * kTrials);
  CHECK(s.estimated > s.fixed);  // 2 for all is too narrow for colonies like these
}

}  // namespace efficacy_limits_test
