#include "engine/mites/yard_counts.h"

#include <algorithm>
#include <cassert>
#include <cmath>

namespace engine::mites {
namespace {

// With a yard of unknown size the advice looks no further.
constexpr int kMostColonies = 60;

struct Moments {
  double mean = 0;
  double variance = 0;  // by n - 1; 0 for a single value
};

Moments moments(const std::vector<double>& values) {
  const auto n = static_cast<double>(values.size());
  Moments m;
  for (const double v : values) m.mean += v / n;
  if (values.size() < 2) return m;
  for (const double v : values) m.variance += (v - m.mean) * (v - m.mean) / (n - 1);
  return m;
}

YardSpread spread_of(const YardSample& sample, const Moments& rate) {
  const auto c = static_cast<double>(sample.colonies.size());
  const double counted = sample.in_yard ? c / *sample.in_yard : 0;
  YardSpread s;
  s.sd = std::sqrt(rate.variance);
  s.se = s.sd / std::sqrt(c) * std::sqrt(1 - counted);
  const double reach = student_two_sided(sample.conf, c - 1) * s.se;
  s.t_low = std::max(0.0, rate.mean - reach);
  s.t_high = rate.mean + reach;
  return s;
}

// The yard's total judged against the threshold.
Verdict judge_total(std::int64_t mites, double bees, double size, const Cutoff& cutoff) {
  const double mean = cutoff.per_100 / 100 * bees;
  return verdict(negative_binomial_at_least(mites, mean, size),
                 negative_binomial_at_most(mites, mean, size), cutoff);
}

std::optional<int> more_colonies(const YardSample& sample, const Wash& all, double dispersion) {
  const auto counted = static_cast<int>(sample.colonies.size());
  for (int c = counted; c <= sample.in_yard.value_or(kMostColonies); ++c) {
    const double grown = static_cast<double>(c) / counted;
    const auto mites =
        static_cast<std::int64_t>(std::floor(as_double(all.mites) * c / counted + 0.5));
    if (judge_total(mites, as_double(all.bees) * grown, dispersion * c, *sample.cutoff).decision !=
        Decision::Recount)
      return c - counted;
  }
  return std::nullopt;
}

}  // namespace

double dispersion_of(const std::vector<Wash>& colonies) {
  std::vector<double> counts;
  for (const Wash& w : colonies) counts.push_back(as_double(w.mites));
  const Moments m = moments(counts);
  if (colonies.size() < 5 || m.mean <= 0) return 1.0;
  if (m.variance <= m.mean) return 50.0;
  return std::clamp(m.mean * m.mean / (m.variance - m.mean), 0.3, 50.0);
}

YardEstimate estimate(const YardSample& sample) {
  assert(!sample.colonies.empty());
  std::vector<double> rates;
  for (const Wash& w : sample.colonies)
    rates.push_back(100 * as_double(w.mites) / as_double(w.bees));
  const Moments rate = moments(rates);
  const Wash all = pooled(sample.colonies);
  YardEstimate e;
  e.mean_per_100 = rate.mean;
  e.max_per_100 = *std::max_element(rates.begin(), rates.end());
  if (rates.size() >= 2) e.spread = spread_of(sample, rate);
  e.dispersion = sample.dispersion.value_or(dispersion_of(sample.colonies));
  e.pooled_per_100 = 100 * as_double(all.mites) / as_double(all.bees);
  const double size = e.dispersion * static_cast<double>(rates.size());
  const Limits total = negative_binomial_mean(all.mites, size, sample.conf);
  e.nb_low = 100 * total.low / as_double(all.bees);
  e.nb_high = 100 * total.high / as_double(all.bees);
  if (!sample.cutoff) return e;
  e.verdict = judge_total(all.mites, as_double(all.bees), size, *sample.cutoff);
  e.more_colonies_if_mean_holds = more_colonies(sample, all, e.dispersion);
  return e;
}

}  // namespace engine::mites
