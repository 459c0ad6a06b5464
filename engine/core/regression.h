// engine/core/regression.h -- Bayesian linear regression with a conjugate prior, in closed form.
//
//   y = x'c + e,  e ~ N(0, v),  c | v ~ N(m, v P^-1),  v ~ inverse gamma(a, b)
//
// The posterior has the same form: P += x x', P m += x y, a += 1/2, 2b + m'P m += y^2 for each
// observation; the next y is Student t with 2a degrees of freedom around x'm with the squared scale
// (b / a)(1 + x'P^-1 x). Formulas: Murphy, "Conjugate Bayesian analysis of the Gaussian
// distribution" (2007) for one mean; Gelman et al., Bayesian Data Analysis, 3rd ed., ch. 14.
// Only sums are kept, so that an observation costs the square of the number of columns.
#pragma once
#include <span>
#include <vector>

namespace engine {

// Prior and data together. Columns are numbered as in every `x`.
struct LinearSums {
  std::vector<double> precision;  // P, row by row
  std::vector<double> weighted;   // P m
  double squares = 0;             // 2b + m'P m
  double a = 0;

  // `diagonal` is that of the prior's P: one over the squared width of each coefficient's
  // prior, in units of v. Zero says nothing about that coefficient (improper, until data come).
  LinearSums(std::span<const double> mean, std::span<const double> diagonal, double a, double b);
  void add(std::span<const double> x, double y);
  // All that was added so far counts `part` as much (0 to 1): slow forgetting. Of sums that began
  // with no prior.
  void scale(double part);
  // Those of the same columns, on top.
  void add(const LinearSums& other);
  [[nodiscard]] std::size_t columns() const { return weighted.size(); }
};

// The posterior, ready to be asked.
struct LinearFit {
  std::vector<double> mean;   // m
  std::vector<double> lower;  // Cholesky factor L of P = L L', row by row
  double a = 0, b = 0;
  [[nodiscard]] std::size_t columns() const { return mean.size(); }
};
// Requires that P is positive definite (a proper prior, or data enough).
[[nodiscard]] LinearFit fit(const LinearSums& sums);

// Of the next y at x.
struct StudentT {
  double df = 1, centre = 0, scale = 1;
  [[nodiscard]] double quantile(double p) const;
};
[[nodiscard]] StudentT predict(const LinearFit& fit, std::span<const double> x);

}  // namespace engine
