// The search for rounds and the fit of a kill: held to the rules in their own words.
#include <doctest/doctest.h>

#include "engine/mites/fit_kill.h"
#include "engine/mites/search.h"
#include "tests/reference/mites_fixture.h"

namespace mites_search_test {

using namespace reference;

namespace {

SearchAsk ask() {
  SearchAsk a;
  a.n_max = 5;
  a.i_min = 4;
  a.i_max = 8;
  a.kill = 0.313;
  return a;
}

}  // namespace

TEST_CASE("rounds move to allowed days and keep their least distance") {
  SearchAsk a;
  a.min_interval = 5;
  a.allowed = std::vector<int>{2, 3, 9, 10, 20, 21, 40};
  CHECK(place_rounds(a, 3, 5) == std::vector<int>{2, 9, 20});
  CHECK(place_rounds(a, 4, 6) == std::vector<int>{2, 9, 20, 40});
  CHECK_FALSE(place_rounds(a, 5, 5));
  a.allowed.reset();
  CHECK(place_rounds(a, 3, 2) == std::vector<int>{0, 5, 10});
}

TEST_CASE("the search agrees with trying every schedule by hand") {
  const SearchAnswer answer = search(colony(), start(), ask(), 60);
  double best = -1e9;
  int tried = 0;
  for (int n = 1; n <= 5; ++n)
    for (int i = 4; i <= 8; ++i) {
      if ((n - 1) * i > 60 - 21 || (n == 1 && i > 4)) continue;
      std::vector<int> days;
      for (int j = 0; j < n; ++j) days.push_back(j * i);
      const ColonyRun untreated = run_untreated(colony(), start(), 60);
      best = std::max(
          best,
          *compare(run(colony(), start(), {days, 0.313, 0}, 60), untreated, 60).reduction_pct);
      ++tried;
    }
  CHECK(answer.tried == tried);
  REQUIRE(answer.best);
  CHECK(answer.best->reduction_pct == doctest::Approx(best).epsilon(1e-12));
  CHECK(answer.ladder.size() == 5);
  REQUIRE(answer.advised);
  CHECK(answer.advised->n <= answer.best->n);
  CHECK(answer.advised->reduction_pct >= best - 2 - 1e-9);
}

TEST_CASE("nothing fits, nothing is advised") {
  const SearchAnswer answer = search(colony(), start(), ask(), 20);
  CHECK_FALSE(answer.best);
  CHECK_FALSE(answer.advised);
  CHECK(answer.tried == 0);
}

TEST_CASE("a fitted kill is where 60 halvings of 0 to 1 end") {
  for (const double ratio : {0.25, 0.5, 0.8, 1.0, 1.3}) {
    INFO(ratio);
    Treatment rounds{{0, 5, 10, 15}, 0, 0.05};
    const KillFit fit = fit_kill(colony(), start(), rounds, 0, 29, ratio);
    double low = 0, high = 1;
    for (int i = 0; i < 60; ++i) {
      rounds.kill = (low + high) / 2;
      const ColonyRun r = run(colony(), start(), rounds, 29);
      (r.wash_per_100[29] / r.wash_per_100[0] > ratio ? low : high) = rounds.kill;
    }
    CHECK(fit.kill == doctest::Approx(low).epsilon(1e-12));
  }
}

TEST_CASE("without mites there is no kill to be found, and no end of the program") {
  const ColonyState none = start_of(colony(), {LoadUnit::WashPer100, 0});
  const KillFit fit = fit_kill(colony(), none, {{0, 5}, 0, 0}, 0, 20, 0.5);
  CHECK(fit.kill == 0);
  CHECK_FALSE(fit.bounded);
}

TEST_CASE("a kill is found again from the washes that it gave") {
  const Treatment rounds{{0, 5, 10, 15}, 0.42, 0.05};
  const ColonyRun r = run(colony(), start(), rounds, 30);
  const KillFit fit =
      fit_kill(colony(), start(), rounds, 0, 29, r.wash_per_100[29] / r.wash_per_100[0]);
  CHECK(fit.kill == doctest::Approx(0.42).epsilon(1e-9));
  CHECK_FALSE(fit.bounded);
  CHECK(fit_kill(colony(), start(), rounds, 0, 29, 50).bounded == Bounded::Low);
  CHECK(fit_kill(colony(), start(), rounds, 0, 29, 0).bounded == Bounded::High);
}

}  // namespace mites_search_test
