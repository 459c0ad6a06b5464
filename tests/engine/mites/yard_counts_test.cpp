#include "engine/mites/yard_counts.h"

#include <doctest/doctest.h>

#include <cmath>
#include <string>

namespace yard_counts_test {

using namespace engine::mites;

namespace {

std::vector<Wash> washes(const std::vector<std::int64_t>& mites, std::int64_t bees = 300) {
  std::vector<Wash> all;
  for (const std::int64_t k : mites) all.push_back({k, bees});
  return all;
}

}  // namespace

TEST_CASE("a yard shows its mean, its limits and always its worst colony") {
  // By hand: rates 1, 2, 3, 6 per 100; mean 3, sd sqrt(14/3), t(0.975; 3) = 3.182446 (table).
  YardSample sample{washes({3, 6, 9, 18})};
  YardEstimate e = estimate(sample);
  CHECK(e.mean_per_100 == doctest::Approx(3));
  CHECK(e.max_per_100 == doctest::Approx(6));
  REQUIRE(e.spread);
  CHECK(e.spread->sd == doctest::Approx(std::sqrt(14.0 / 3)));
  CHECK(e.spread->se == doctest::Approx(std::sqrt(14.0 / 3) / 2));
  CHECK(e.spread->t_low == 0);
  CHECK(e.spread->t_high == doctest::Approx(3 + 3.182446 * std::sqrt(14.0 / 3) / 2));
  sample.in_yard = 4;  // every colony counted: nothing is left to chance
  e = estimate(sample);
  CHECK(e.spread->se == 0);
  CHECK(e.spread->t_low == doctest::Approx(3));
}

TEST_CASE("one colony tells nothing of the spread between colonies") {
  const YardEstimate e = estimate({washes({9})});
  CHECK_FALSE(e.spread);
  CHECK(e.mean_per_100 == doctest::Approx(3));
  CHECK(e.dispersion == 1);
  CHECK(e.nb_low < 3);
  CHECK(e.nb_high > 3);
  CHECK_FALSE(e.verdict);
}

TEST_CASE("the spread between colonies comes from the yard's own counts, within limits") {
  struct Row {
    std::string name;
    std::vector<std::int64_t> mites;
    double want;
  };
  const Row rows[] = {
      {"fewer than five colonies", {0, 30, 2, 9}, 1},
      {"no mite at all", {0, 0, 0, 0, 0}, 1},
      {"spread as by chance", {5, 5, 5, 5, 5}, 50},
      {"one colony holds nearly all", {0, 0, 0, 0, 90}, 0.3},
      {"moments: mean 6, variance 26.5",
       {1, 3, 4, 8, 14},
       36.0 / 20.5},  // method of moments, by hand
  };
  for (const Row& r : rows) {
    INFO(r.name);
    CHECK(dispersion_of(washes(r.mites)) == doctest::Approx(r.want));
  }
  YardSample given{washes({1, 3, 4, 8, 14})};
  given.dispersion = 7;
  CHECK(estimate(given).dispersion == 7);
}

TEST_CASE("a yard is decided by its total, wider than a single wash of as many bees") {
  YardSample sample{washes({1, 0, 2, 1, 0, 1, 1, 2})};
  sample.cutoff = Cutoff{3};
  const YardEstimate low = estimate(sample);
  CHECK(low.verdict->decision == Decision::Watch);
  CHECK(low.more_colonies_if_mean_holds == 0);
  sample.colonies = washes({20, 31, 24, 19, 28, 22, 25, 30});
  CHECK(estimate(sample).verdict->decision == Decision::Treat);
  const Limits plain = clopper_pearson(8, 2400, 0.95);
  CHECK(low.nb_low < 100 * plain.low * 1.01);
  CHECK(low.nb_high > 100 * plain.high * 0.99);
}

TEST_CASE("a yard without a mite still has an upper limit") {
  const YardEstimate e = estimate({washes({0, 0, 0, 0, 0, 0, 0, 0})});
  CHECK(e.nb_low == 0);
  // Closed form: P(0 | mean m, size r) = (r/(r+m))^r = 0.025 with r = 8, on 2400 bees.
  CHECK(e.nb_high == doctest::Approx(100 * 8 * (std::pow(0.025, -1.0 / 8) - 1) / 2400));
}

TEST_CASE("advice to count more colonies ends with the yard") {
  YardSample sample{washes({4, 9, 6})};
  sample.cutoff = Cutoff{3};
  const YardEstimate open = estimate(sample);
  REQUIRE(open.verdict->decision == Decision::Recount);
  REQUIRE(open.more_colonies_if_mean_holds);
  const int more = *open.more_colonies_if_mean_holds;
  CHECK(more > 0);
  sample.in_yard = 3 + more;
  CHECK(estimate(sample).more_colonies_if_mean_holds == more);
  sample.in_yard = 3 + more - 1;
  CHECK_FALSE(estimate(sample).more_colonies_if_mean_holds);
}

}  // namespace yard_counts_test
