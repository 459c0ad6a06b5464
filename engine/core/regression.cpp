#include "engine/core/regression.h"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <numeric>

#include "engine/core/student.h"

namespace engine {
namespace {

// P = L L'.
std::vector<double> cholesky(std::vector<double> p, std::size_t n) {
  for (std::size_t j = 0; j < n; ++j)
    for (std::size_t i = j; i < n; ++i) {
      double sum = p[i * n + j];
      for (std::size_t k = 0; k < j; ++k) sum -= p[i * n + k] * p[j * n + k];
      if (i == j) assert(sum > 0);
      p[i * n + j] = i == j ? std::sqrt(sum) : sum / p[j * n + j];
    }
  return p;  // what stands above the diagonal is not read
}

// L z = x.
std::vector<double> forward(const std::vector<double>& l, std::span<const double> x) {
  const std::size_t n = x.size();
  std::vector<double> z(x.begin(), x.end());
  for (std::size_t i = 0; i < n; ++i) {
    for (std::size_t k = 0; k < i; ++k) z[i] -= l[i * n + k] * z[k];
    z[i] /= l[i * n + i];
  }
  return z;
}

// L' z = x.
std::vector<double> backward(const std::vector<double>& l, std::vector<double> z) {
  const std::size_t n = z.size();
  for (std::size_t i = n; i-- > 0;) {
    for (std::size_t k = i + 1; k < n; ++k) z[i] -= l[k * n + i] * z[k];
    z[i] /= l[i * n + i];
  }
  return z;
}

double dot(std::span<const double> a, std::span<const double> b) {
  return std::inner_product(a.begin(), a.end(), b.begin(), 0.0);
}

}  // namespace

LinearSums::LinearSums(std::span<const double> mean, std::span<const double> widths, double a0,
                       double b0)
    : precision(mean.size() * mean.size(), 0.0), weighted(mean.size()), squares(2 * b0), a(a0) {
  assert(widths.size() == mean.size());
  for (std::size_t i = 0; i < mean.size(); ++i) {
    precision[i * mean.size() + i] = widths[i];
    weighted[i] = widths[i] * mean[i];
    squares += widths[i] * mean[i] * mean[i];
  }
}

void LinearSums::add(std::span<const double> x, double y) {
  const std::size_t n = columns();
  assert(x.size() == n);
  for (std::size_t i = 0; i < n; ++i) {
    if (x[i] == 0) continue;  // most columns are zero: the other vaporizers
    for (std::size_t j = 0; j < n; ++j) precision[i * n + j] += x[i] * x[j];
    weighted[i] += x[i] * y;
  }
  squares += y * y;
  a += 0.5;
}

void LinearSums::scale(double part) {
  for (double& p : precision) p *= part;
  for (double& w : weighted) w *= part;
  squares *= part, a *= part;
}

void LinearSums::add(const LinearSums& other) {
  assert(other.columns() == columns());
  for (std::size_t i = 0; i < precision.size(); ++i) precision[i] += other.precision[i];
  for (std::size_t i = 0; i < weighted.size(); ++i) weighted[i] += other.weighted[i];
  squares += other.squares, a += other.a;
}

LinearFit fit(const LinearSums& s) {
  LinearFit f{.lower = cholesky(s.precision, s.columns()), .a = s.a};
  f.mean = backward(f.lower, forward(f.lower, s.weighted));
  f.b = std::max(0.0, (s.squares - dot(f.mean, s.weighted)) / 2);
  return f;
}

double StudentT::quantile(double p) const { return centre + scale * student_t_quantile(df, p); }

StudentT predict(const LinearFit& f, std::span<const double> x) {
  assert(x.size() == f.columns());
  const std::vector<double> z = forward(f.lower, x);
  return {2 * f.a, dot(x, f.mean), std::sqrt(f.b / f.a * (1 + dot(z, z)))};
}

}  // namespace engine
