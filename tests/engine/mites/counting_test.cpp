#include "engine/mites/counting.h"

#include <doctest/doctest.h>

#include <cmath>
#include <string>

namespace counting_test {

using namespace engine::mites;

namespace {

bool near(double got, double want, double tolerance) {
  INFO(got << " for " << want);
  CHECK(std::abs(got - want) <= tolerance);
  return std::abs(got - want) <= tolerance;
}

}  // namespace

TEST_CASE("a wash carries exact limits") {
  struct Row {
    std::string name;
    Wash wash;
    double conf, per_100, low, high, tolerance;
  };
  const Row rows[] = {
      // Closed form: 1 - 0.025^(1/300).
      {"no mite among 300", {0, 300}, 0.95, 0, 0, 1.2221014, 1e-5},
      // NIST/SEMATECH e-Handbook 7.2.4.2: 4 defects of 20, 90 %, exact limits.
      {"4 of 20", {4, 20}, 0.90, 20, 7.1354, 40.1029, 1e-4},
      // COLOSS BEEBOOK vol. II, varroa: 43 mites on 310 bees. Its page prints 14.3, a slip.
      {"43 on 310 bees", {43, 310}, 0.95, 13.870968, 10.22, 18.22, 0.01},
      {"15 infested of 212 cells", {15, 212}, 0.95, 7.0754717, 4.01, 11.40, 0.01},
      // Closed form: every bee has a mite is not asked of the binomial (Garwood's limits of 5).
      {"5 on 5 bees", {5, 5}, 0.95, 100, 32.469728, 233.366640, 1e-4},
  };
  for (const Row& r : rows) {
    INFO(r.name);
    const WashEstimate e = estimate(r.wash, r.conf);
    near(e.per_100, r.per_100, 1e-6);
    near(e.low, r.low, r.tolerance);
    near(e.high, r.high, r.tolerance);
  }
}

TEST_CASE("above 30 mites per 100 bees the limits are Poisson's") {
  CHECK(estimate({90, 300}).method == WashMethod::ClopperPearson);
  CHECK(estimate({91, 300}).method == WashMethod::Garwood);
  CHECK(estimate({500, 300}).per_100 > 100);  // several on a bee
  CHECK(judge({500, 300}, {}).decision == Decision::Treat);
}

TEST_CASE("300 bees decide, or do not, by the table") {
  // Computed by this project's reference from exact binomial tails, alpha = beta = 0.10.
  struct Row {
    std::string name;
    double threshold;
    std::int64_t watch_up_to, treat_from;
  };
  const Row rows[] = {{"2 per 100", 2, 2, 10}, {"3 per 100", 3, 4, 14}};
  for (const Row& r : rows) {
    INFO(r.name);
    const Cutoff cutoff{r.threshold};
    const DecisionTable table = decision_table(300, cutoff);
    REQUIRE(table.watch_up_to);
    CHECK(*table.watch_up_to == r.watch_up_to);
    CHECK(table.treat_from == r.treat_from);
    CHECK(judge({r.watch_up_to + 1, 300}, cutoff).decision == Decision::Recount);
    CHECK(judge({r.treat_from - 1, 300}, cutoff).decision == Decision::Recount);
  }
  CHECK_FALSE(decision_table(20, {3}).watch_up_to);  // 0 of 20 has chance 0.54 at 3 %
}

TEST_CASE("no mite among 100 bees at 1 %: more than a third of the time") {
  near(judge({0, 100}, {1}).p_le, 0.366, 0.001);  // 0.99^100; an extension page says 36 %
  CHECK(judge({0, 100}, {1}).p_ge == 1);
}

TEST_CASE("a smaller beta asks for more before it clears a colony") {
  CHECK(judge({4, 300}, {3, 0.10, 0.10}).decision == Decision::Watch);
  CHECK(judge({4, 300}, {3, 0.10, 0.02}).decision == Decision::Recount);
}

TEST_CASE("washes are pooled; after the allowed ones the estimate decides") {
  struct Row {
    std::string name;
    std::vector<Wash> washes;
    Decision want;
  };
  const Row rows[] = {
      {"one is undecided", {{9, 300}}, Decision::Recount},
      {"two at the threshold", {{9, 300}, {9, 300}}, Decision::Treat},
      {"two just below it", {{9, 300}, {8, 300}}, Decision::Watch},
      {"the second clears it", {{6, 300}, {2, 300}}, Decision::Watch},
      {"the second convicts it", {{12, 300}, {16, 300}}, Decision::Treat},
  };
  for (const Row& r : rows) {
    INFO(r.name);
    CHECK(decide(r.washes, 2, {3}) == r.want);
  }
  CHECK(pooled({{9, 300}, {8, 280}}).bees == 580);
}

TEST_CASE("more washes are asked for only as long as they would decide") {
  CHECK(more_washes_if_rate_holds({2, 300}, 300, {3}) == 0);
  CHECK(more_washes_if_rate_holds({6, 300}, 300, {3}) == 1);
  CHECK_FALSE(more_washes_if_rate_holds({9, 300}, 300, {3}));  // exactly at the threshold
}

TEST_CASE("distributions agree with tables and closed forms") {
  // Student's t and Garwood's limits: standard tables. I_0.4(2,3) = P(X >= 2 of 4 at 0.4): closed
  // form. Negative binomial: summed term by term.
  near(student_two_sided(0.95, 7), 2.364624, 1e-6);
  near(normal_two_sided(0.95), 1.959964, 1e-6);
  near(binomial_at_least(2, 4, 0.4), 0.5248, 1e-12);
  near(negative_binomial_at_most(40, 72, 8), 0.1020658989, 1e-9);
  const double garwood_table[][3] = {
      {0, 0, 3.688879}, {5, 1.623486, 11.668332}, {10, 4.795389, 18.390356}};
  for (const auto& [k, low, high] : garwood_table) {
    const Limits limits = garwood(static_cast<std::int64_t>(k), 0.95);
    near(limits.low, low, 1e-6);
    near(limits.high, high, 1e-6);
  }
}

TEST_CASE("tails meet: at least k and at most k - 1 make one") {
  for (const std::int64_t k : {1, 3, 17, 60}) {
    near(binomial_at_least(k, 300, 0.03) + binomial_at_most(k - 1, 300, 0.03), 1, 1e-12);
    near(poisson_at_least(k, 9) + poisson_at_most(k - 1, 9), 1, 1e-12);
    near(negative_binomial_at_least(k, 9, 2) + negative_binomial_at_most(k - 1, 9, 2), 1, 1e-12);
  }
}

TEST_CASE("the limits of a mean are where its tails are") {
  for (const std::int64_t k : {1, 7, 250}) {
    const Limits nb = negative_binomial_mean(k, 3, 0.9);
    near(negative_binomial_at_least(k, nb.low, 3), 0.05, 1e-9);
    near(negative_binomial_at_most(k, nb.high, 3), 0.05, 1e-9);
    const Limits share = clopper_pearson(k, 300, 0.9);
    near(binomial_at_least(k, 300, share.low), 0.05, 1e-9);
    near(binomial_at_most(k, 300, share.high), 0.05, 1e-9);
  }
  CHECK(clopper_pearson(300, 300, 0.95).high == 1);
}

}  // namespace counting_test
