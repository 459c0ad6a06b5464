#include "engine/core/regression.h"

#include <doctest/doctest.h>

#include <array>
#include <cmath>
#include <string>

#include "engine/core/student.h"

namespace regression_test {

using engine::fit;
using engine::LinearFit;
using engine::LinearSums;
using engine::predict;
using engine::StudentT;

TEST_CASE("quantiles of Student's t are those of the tables") {
  // NIST/SEMATECH e-Handbook of Statistical Methods, table 1.3.6.7.2 (critical values of t).
  struct Row {
    std::string name;
    double df, p, want;
  };
  const Row rows[] = {{"1, 0.90", 1, 0.90, 3.078},     {"4, 0.99", 4, 0.99, 3.747},
                      {"5, 0.95", 5, 0.95, 2.015},     {"6, 0.90", 6, 0.90, 1.440},
                      {"10, 0.975", 10, 0.975, 2.228}, {"30, 0.99", 30, 0.99, 2.457},
                      {"100, 0.90", 100, 0.90, 1.290}, {"the middle", 7, 0.5, 0}};
  for (const Row& r : rows) {
    INFO(r.name);
    CHECK(std::abs(engine::student_t_quantile(r.df, r.p) - r.want) < 0.0005);
  }
}

TEST_CASE("one mean and its variance are updated as by hand") {
  // Gelman et al., Bayesian Data Analysis, 3rd ed., section 3.3, in figures of our own: prior mean
  // 60 with the weight of one observation, a = 3, b = 675; then 90, 100 and 110.
  //   weight 1 + 3 = 4; mean (60 + 300) / 4 = 90; a = 3 + 3/2
  //   b = 675 + (sum of squares about 100 = 200) / 2 + 1 * 3 / 4 * (100 - 60)^2 / 2 = 1375
  const std::array mean{60.0}, weight{1.0}, x{1.0};
  LinearSums sums(mean, weight, 3, 675);
  for (const double y : {90.0, 100.0, 110.0}) sums.add(x, y);
  const LinearFit f = fit(sums);
  CHECK(f.mean[0] == doctest::Approx(90).epsilon(1e-12));
  CHECK(f.a == 4.5);
  CHECK(f.b == doctest::Approx(1375).epsilon(1e-12));
  const StudentT next = predict(f, x);
  CHECK(next.df == 9);
  CHECK(next.scale == doctest::Approx(std::sqrt(1375 / 4.5 * 1.25)).epsilon(1e-12));
}

namespace {

struct Pair {
  double y, x;
};
// NIST Statistical Reference Datasets, linear regression, "Norris" (J. Norris, calibration of ozone
// monitors): 36 observations.
constexpr Pair kNorris[] = {
    {0.1, 0.2},     {338.8, 337.4}, {118.1, 118.2}, {888.0, 884.6}, {9.2, 10.1},    {228.1, 226.5},
    {668.5, 666.3}, {998.5, 996.3}, {449.1, 448.6}, {778.9, 777.0}, {559.2, 558.2}, {0.3, 0.4},
    {0.1, 0.6},     {778.1, 775.5}, {668.8, 666.9}, {339.3, 338.0}, {448.9, 447.5}, {10.8, 11.6},
    {557.7, 556.0}, {228.3, 228.1}, {998.0, 995.8}, {888.8, 887.6}, {119.6, 120.2}, {0.3, 0.3},
    {0.6, 0.3},     {557.6, 556.8}, {339.3, 339.1}, {888.0, 887.2}, {998.5, 999.0}, {778.9, 779.0},
    {10.2, 11.1},   {117.6, 118.3}, {228.9, 229.2}, {668.4, 669.1}, {449.2, 448.9}, {0.2, 0.5}};

// The prior that says nothing: precision zero, a = -columns / 2, b = 0. It gives least squares and
// the textbook interval for a new observation.
LinearFit norris() {
  const std::array mean{0.0, 0.0}, nothing{0.0, 0.0};
  LinearSums sums(mean, nothing, -1, 0);
  for (const Pair& p : kNorris) sums.add(std::array{1.0, p.x}, p.y);
  return fit(sums);
}

}  // namespace

TEST_CASE("with a prior that says nothing it is least squares, to certified figures") {
  const LinearFit f = norris();
  CHECK(f.mean[0] == doctest::Approx(-0.262323073774029).epsilon(1e-9));
  CHECK(f.mean[1] == doctest::Approx(1.00211681802045).epsilon(1e-12));
  CHECK(2 * f.a == 34);  // degrees of freedom
  CHECK(std::sqrt(f.b / f.a) == doctest::Approx(0.884796396144373).epsilon(1e-8));
}

TEST_CASE("its standard errors are the certified ones") {
  // Predicting at x and at 0 differ by the coefficient's own variance: scale^2 - s^2.
  const LinearFit f = norris();
  const double s = std::sqrt(f.b / f.a);
  const auto error = [&](std::array<double, 2> x) {
    const double scale = predict(f, x).scale;
    return std::sqrt(scale * scale - s * s);
  };
  CHECK(error({1, 0}) == doctest::Approx(0.232818234301152).epsilon(1e-7));
  CHECK(error({0, 1}) == doctest::Approx(0.429796848199937e-3).epsilon(1e-3));
}

TEST_CASE("a sharp prior outweighs the data, and data outweigh a wide one") {
  const std::array x{1.0}, mean{50.0}, sharp{1e6}, wide{1e-6};
  LinearSums held(mean, sharp, 3, 3), free(mean, wide, 3, 3);
  for (int i = 0; i < 20; ++i) held.add(x, 80), free.add(x, 80);
  CHECK(fit(held).mean[0] == doctest::Approx(50).epsilon(0.001));
  CHECK(fit(free).mean[0] == doctest::Approx(80).epsilon(0.001));
}

}  // namespace regression_test
