#include "engine/trip/walk_length.h"

#include "tests/support/evening.h"

namespace walk_length_test {

using namespace evening;

namespace {

DwellModel nothing_learned(const Keeper& k) { return learn_dwell(k.farm); }

std::optional<OrderCase> case_for(const Keeper& k, std::vector<ColonyId> only = {}) {
  return case_of_visit(k.farm, {yard(), 0, std::move(only)}, nothing_learned(k), at(100));
}

}  // namespace

TEST_CASE("a visit is planned with all kit, for the whole yard or for those to come back to") {
  Keeper k = keeper_with(5, 2);
  const auto all = case_for(k);
  REQUIRE(all);
  CHECK(all->sites.size() == 5);
  CHECK(all->cloths == 2);
  CHECK(all->now_s == 0);
  CHECK(case_for(k, {colony(2), colony(4)})->sites.size() == 2);
  for (int i = 1; i <= 2; ++i) {
    KitChanged gone{cloth(i)};
    gone.retired = true;
    k.does(at(1), gone);
  }
  CHECK_FALSE(case_for(k));  // without a cloth there is no order to plan
}

TEST_CASE("a walk is as long as its plan, and keeps the whole seal while that fits") {
  const Keeper k = keeper_with(5, 1);
  const OrderCase c = *case_for(k);
  const WalkLength whole = walk_length(c, Seconds{300}, 240);
  CHECK(whole.minutes == doctest::Approx(plan_order(c, OrderEffort::Rough).finish_s / 60));
  CHECK_FALSE(whole.shortened);
  // Five dwells of 90 s and the seal of the last colony: no plan is shorter.
  CHECK(whole.minutes >= (5 * 90 + 600) / 60.0);
  CHECK(walk_length(c, Seconds{300}, whole.minutes).minutes == whole.minutes);
}

TEST_CASE("where the window is too short, the seal gives way as far as the rules allow") {
  const Keeper k = keeper_with(5, 1);  // each colony waits for the one cloth
  const OrderCase c = *case_for(k);
  const double whole = walk_length(c, Seconds{300}, 240).minutes;
  const WalkLength tight = walk_length(c, Seconds{300}, whole - 8);
  CHECK(tight.shortened);
  CHECK(tight.minutes <= whole - 8);
  const WalkLength hopeless = walk_length(c, Seconds{300}, 5);
  CHECK(hopeless.minutes > 5);
  CHECK(hopeless.minutes <= tight.minutes);
}

}  // namespace walk_length_test
