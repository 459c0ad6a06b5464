#include "engine/mites/distributions.h"

#include <boost/math/distributions/normal.hpp>
#include <boost/math/distributions/students_t.hpp>
#include <boost/math/special_functions/beta.hpp>
#include <boost/math/special_functions/gamma.hpp>

namespace engine::mites {
namespace {

namespace bm = boost::math;
namespace bp = boost::math::policies;

// Callers keep arguments in range, so nothing is thrown: past the range of double, infinity.
using Quiet =
    bp::policy<bp::domain_error<bp::ignore_error>, bp::pole_error<bp::ignore_error>,
               bp::overflow_error<bp::ignore_error>, bp::evaluation_error<bp::ignore_error>>;

double tail(double conf) { return (1 - conf) / 2; }

}  // namespace

double binomial_at_least(std::int64_t k, std::int64_t n, double p) {
  if (k <= 0) return 1;
  return k > n ? 0 : bm::ibeta(as_double(k), as_double(n - k + 1), p, Quiet());
}

double binomial_at_most(std::int64_t k, std::int64_t n, double p) {
  return k >= n ? 1 : bm::ibetac(as_double(k + 1), as_double(n - k), p, Quiet());
}

double poisson_at_least(std::int64_t k, double mean) {
  return k <= 0 ? 1 : bm::gamma_p(as_double(k), mean, Quiet());
}

double poisson_at_most(std::int64_t k, double mean) {
  return bm::gamma_q(as_double(k + 1), mean, Quiet());
}

double negative_binomial_at_least(std::int64_t k, double mean, double size) {
  return k <= 0 ? 1 : bm::ibetac(size, as_double(k), size / (size + mean), Quiet());
}

double negative_binomial_at_most(std::int64_t k, double mean, double size) {
  return bm::ibeta(size, as_double(k + 1), size / (size + mean), Quiet());
}

Limits clopper_pearson(std::int64_t k, std::int64_t n, double conf) {
  return {k == 0 ? 0 : bm::ibeta_inv(as_double(k), as_double(n - k + 1), tail(conf), Quiet()),
          k == n ? 1 : bm::ibetac_inv(as_double(k + 1), as_double(n - k), tail(conf), Quiet())};
}

Limits garwood(std::int64_t k, double conf) {
  return {k == 0 ? 0 : bm::gamma_p_inv(as_double(k), tail(conf), Quiet()),
          bm::gamma_q_inv(as_double(k + 1), tail(conf), Quiet())};
}

Limits negative_binomial_mean(std::int64_t k, double size, double conf) {
  // Both tails are monotone in x = size / (size + mean), so that each inverse gives a mean.
  // Boost hands back 1 - x as well, which keeps its digits where x is close to 1.
  double rest_low = 0, rest_high = 0;
  Limits x;
  if (k > 0) x.low = bm::ibetac_inv(size, as_double(k), tail(conf), &rest_low, Quiet());
  x.high = bm::ibeta_inv(size, as_double(k + 1), tail(conf), &rest_high, Quiet());
  return {k == 0 ? 0 : size * rest_low / x.low, size * rest_high / x.high};
}

double normal_two_sided(double conf) {
  return bm::quantile(bm::complement(bm::normal_distribution<double, Quiet>(), tail(conf)));
}

double student_two_sided(double conf, double degrees_of_freedom) {
  return bm::quantile(
      bm::complement(bm::students_t_distribution<double, Quiet>(degrees_of_freedom), tail(conf)));
}

}  // namespace engine::mites
