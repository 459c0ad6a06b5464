// engine/mites/distributions.h -- the distributions that counting needs, by Boost.Math.
//
// One place for it, so that the rest of the engine does not compile Boost's headers. Arguments are
// the caller's to keep in range: probabilities within 0..1, shapes and means above 0.
#pragma once
#include <cstdint>

namespace engine::mites {

// A count as the models reckon with it; exact up to 2^53.
[[nodiscard]] inline double as_double(std::int64_t count) { return static_cast<double>(count); }

// Two limits of an estimate; the unit is that of what was estimated.
struct Limits {
  double low = 0;
  double high = 0;
};

// Binomial: k of n, each with chance p. P(X >= k) = I_p(k, n-k+1), I the regularized incomplete
// beta function.
[[nodiscard]] double binomial_at_least(std::int64_t k, std::int64_t n, double p);
[[nodiscard]] double binomial_at_most(std::int64_t k, std::int64_t n, double p);

[[nodiscard]] double poisson_at_least(std::int64_t k, double mean);
[[nodiscard]] double poisson_at_most(std::int64_t k, double mean);

// Negative binomial by mean and size: variance = mean + mean^2 / size.
[[nodiscard]] double negative_binomial_at_least(std::int64_t k, double mean, double size);
[[nodiscard]] double negative_binomial_at_most(std::int64_t k, double mean, double size);

// Exact limits at confidence `conf`, found by inverting both tails, each at (1-conf)/2. At k = 0
// the low limit is 0.
[[nodiscard]] Limits clopper_pearson(std::int64_t k, std::int64_t n, double conf);  // chance
[[nodiscard]] Limits garwood(std::int64_t k, double conf);                          // mean
[[nodiscard]] Limits negative_binomial_mean(std::int64_t k, double size, double conf);

// The value that a standard normal, or a Student t, exceeds in size with chance 1-conf.
[[nodiscard]] double normal_two_sided(double conf);
[[nodiscard]] double student_two_sided(double conf, double degrees_of_freedom);

}  // namespace engine::mites
