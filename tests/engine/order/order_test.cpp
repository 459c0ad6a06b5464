#include "engine/order/order.h"

#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <string>

#include "tests/support/order_rules.h"

namespace order_test {

using namespace engine;

namespace {

// Invented yards; the same each time.
struct Numbers {
  std::uint32_t state;
  double below(double most) {
    state = state * 1664525U + 1013904223U;  // Numerical Recipes' quick generator
    return most * static_cast<double>(state >> 8) / static_cast<double>(1U << 24);
  }
};

OrderCase yard_of(int colonies, int vaporizers, int cloths, std::uint32_t seed) {
  Numbers numbers{seed};
  OrderCase c;
  c.walk_mps = 1.1;
  c.gate = {-8, -5};
  c.vaporizers = vaporizers;
  c.cloths = cloths;
  c.seal_s = 300;
  c.handling = {20, 10, 6};
  for (int i = 0; i < colonies; ++i)
    c.sites.push_back({.id = "H" + std::to_string(i),
                       .at = {numbers.below(30), numbers.below(20)},
                       .dwell_s = 70 + numbers.below(50)});
  return c;
}

std::string counted(const OrderCase& c) {
  return std::to_string(c.sites.size()) + " colonies, " + std::to_string(c.vaporizers) +
         " vaporizers, " + std::to_string(c.cloths) + " cloths";
}

OrderCase at_the_gate(int cloths) {
  OrderCase c;
  c.walk_mps = 1;
  c.vaporizers = 1;
  c.cloths = cloths;
  c.seal_s = 300;
  c.handling = {20, 10, 6};
  for (const char* id : {"A", "B"}) c.sites.push_back({.id = id, .at = {0, 0}, .dwell_s = 90});
  return c;
}

// The walk as it stands after the first `done` steps of a plan.
OrderCase after(OrderCase c, const OrderPlan& plan, std::size_t done) {
  for (std::size_t i = 0; i < done; ++i) {
    const OrderStep& s = plan.steps[i];
    OrderSite& site = c.sites[static_cast<std::size_t>(s.site)];
    site.stage = static_cast<OrderStage>(static_cast<int>(s.act) + 1);
    site.since_s = s.end_s;
    site.cloth = s.act == OrderDo::Cover ? s.cloth : 0;
    c.now_s = s.end_s;
    c.operator_at = site.at;
  }
  return c;
}

}  // namespace

// By hand. One cloth: set A to 20, cover 110-120, set B 120-140, uncover A 420-426, cover B
// 426-436, uncover B 736-742. Two cloths: cover B 230-240, uncover A 420-426, uncover B 540-546.
TEST_CASE("two colonies at the gate take 742 s with one cloth and 546 s with two") {
  CHECK(plan_order(at_the_gate(1)).finish_s == doctest::Approx(742).epsilon(1e-12));
  CHECK(plan_order(at_the_gate(2)).finish_s == doctest::Approx(546).epsilon(1e-12));
  CHECK(plan_order(at_the_gate(1)).proven_optimal);
}

TEST_CASE("every plan keeps the rules, and no bound is above its finish") {
  for (const auto& [v, k] : {std::pair{1, 1}, {1, 3}, {2, 4}, {3, 6}})
    for (const int n : {0, 1, 3, 7, 12}) {
      const OrderCase c = yard_of(n, v, k, static_cast<std::uint32_t>(10 * n + v));
      for (const OrderPlan& plan : {plan_order(c, OrderEffort::Quick), plain_rotation(c)}) {
        INFO(counted(c));
        CHECK(order_rules::fault(c, plan) == "");
        CHECK(plan.lower_bound_s <= plan.finish_s + 1e-6);
      }
    }
}

TEST_CASE("the checker itself sees broken plans") {
  const OrderCase c = yard_of(3, 1, 2, 5);
  const OrderPlan good = plan_order(c);
  REQUIRE(order_rules::fault(c, good) == "");
  OrderPlan early = good;
  for (OrderStep& s : early.steps)
    if (s.act == OrderDo::Uncover) s.start_s -= 5, s.end_s -= 5;
  CHECK(order_rules::fault(c, early) != "");
  OrderPlan missing = good;
  missing.steps.pop_back();
  CHECK(order_rules::fault(c, missing) != "");
  OrderPlan hasty = good;
  hasty.finish_s -= 1;
  CHECK(order_rules::fault(c, hasty) != "");
  OrderCase one_cloth = c;
  one_cloth.cloths = 1;
  CHECK(order_rules::fault(one_cloth, good) != "");
}

// All sequences of acts, one after the other, by the rules alone.
TEST_CASE("up to four colonies no sequence of acts finishes before the plan") {
  for (const auto& [n, v, k] : {std::tuple{2, 1, 1}, {3, 1, 1}, {3, 1, 2}, {3, 2, 2}, {4, 1, 2}}) {
    const OrderCase c = yard_of(n, v, k, static_cast<std::uint32_t>(n + 7 * v + 31 * k));
    const OrderPlan plan = plan_order(c);
    INFO(counted(c));
    CHECK(plan.finish_s <= order_rules::best_of_all(c) * 1.0005);
    CHECK(plan.finish_s >= order_rules::best_of_all(c) - 1e-6);
    CHECK(plan.proven_optimal);
  }
}

TEST_CASE("more cloths never finish later, a longer seal never earlier") {
  const OrderCase c = yard_of(6, 1, 1, 3);
  double before = 1e18;
  for (int cloths = 1; cloths <= 6; ++cloths) {
    OrderCase more = c;
    more.cloths = cloths;
    const double finish = plan_order(more).finish_s;
    CHECK(finish <= before + 1e-6);
    before = finish;
  }
  double shorter = 0;
  for (const double seal : {60.0, 180.0, 300.0, 600.0}) {
    OrderCase longer = c;
    longer.cloths = 3;
    longer.seal_s = seal;
    const double finish = plan_order(longer).finish_s;
    CHECK(finish >= shorter - 1e-6);
    shorter = finish;
  }
}

TEST_CASE("scaling all times scales the plan; mirroring and shifting the map change nothing") {
  const OrderCase c = yard_of(5, 1, 3, 9);
  const double finish = plan_order(c).finish_s;
  OrderCase slow = c, mirrored = c, shifted = c;
  slow.walk_mps /= 2;
  slow.seal_s *= 2;
  slow.handling = {40, 20, 12};
  for (OrderSite& s : slow.sites) s.dwell_s *= 2;
  mirrored.gate.x = -mirrored.gate.x;
  for (OrderSite& s : mirrored.sites) s.at.x = -s.at.x;
  shifted.gate = {c.gate.x + 100, c.gate.y - 50};
  for (OrderSite& s : shifted.sites) s.at = {s.at.x + 100, s.at.y - 50};
  CHECK(plan_order(slow).finish_s == doctest::Approx(2 * finish).epsilon(1e-6));
  CHECK(plan_order(mirrored).finish_s == doctest::Approx(finish).epsilon(1e-9));
  CHECK(plan_order(shifted).finish_s == doctest::Approx(finish).epsilon(1e-9));
}

TEST_CASE("the same case gives the same plan, never slower than the keeper's own order") {
  const OrderCase c = yard_of(10, 2, 4, 4);
  const OrderPlan once = plan_order(c, OrderEffort::Quick);
  const OrderPlan again = plan_order(c, OrderEffort::Quick);
  REQUIRE(once.steps.size() == again.steps.size());
  for (std::size_t i = 0; i < once.steps.size(); ++i)
    CHECK(once.steps[i].start_s == again.steps[i].start_s);
  CHECK(once.finish_s <= plain_rotation(c).finish_s + 1e-9);
}

TEST_CASE("a plan made anew in mid-walk is never worse than going on as planned") {
  const OrderCase c = yard_of(9, 1, 3, 6);
  const OrderPlan plan = plan_order(c, OrderEffort::Quick);
  for (std::size_t done = 0; done <= plan.steps.size(); done += 4) {
    const OrderCase now = after(c, plan, done);
    const std::vector<OrderStep> rest(plan.steps.begin() + static_cast<std::ptrdiff_t>(done),
                                      plan.steps.end());
    const auto going_on = retime(now, rest);
    REQUIRE(going_on);
    CHECK(going_on->finish_s == doctest::Approx(plan.finish_s).epsilon(1e-9));
    const OrderPlan fresh = plan_order(now, OrderEffort::Quick, rest);
    CHECK(fresh.finish_s <= going_on->finish_s + 1e-6);
    CHECK(order_rules::fault(now, fresh) == "");
  }
  CHECK_FALSE(retime(after(c, plan, 2), plan.steps));
}

TEST_CASE("time to spare goes into the shortest seal, and never past the asked finish") {
  OrderCase c = yard_of(6, 1, 3, 8);
  const double fastest = plan_order(c).finish_s;
  c.finish_by_s = fastest + 600;
  const OrderPlan plan = plan_order(c);
  CHECK(order_rules::fault(c, plan) == "");
  CHECK(plan.finish_s <= *c.finish_by_s + 1e-6);
  CHECK(plan.shortest_seal_s > c.seal_s + 150);
  c.finish_by_s = fastest - 100;  // cannot be had: the fastest at the least seal
  CHECK(plan_order(c).finish_s == doctest::Approx(fastest).epsilon(1e-3));
}

TEST_CASE("the wind is kept out of for at most three parts in a hundred of the time") {
  OrderCase c = yard_of(8, 1, 3, 11);
  const double fastest = plan_order(c).finish_s;
  c.wind_from_deg = 180;
  const OrderPlan plan = plan_order(c);
  CHECK(order_rules::fault(c, plan) == "");
  CHECK(plan.finish_s <= fastest * 1.03 + 1e-6);
  CHECK(plan.downwind_s <= plain_rotation(c).downwind_s + 1e-6);
}

TEST_CASE("late in an evening the wind may cost three parts of what is left, not of the clock") {
  OrderCase c = yard_of(8, 1, 3, 11);
  c.now_s = 20'000;
  const double best = plan_order(c).finish_s;
  for (const double from : {0.0, 90.0, 180.0, 270.0}) {
    CAPTURE(from);
    c.wind_from_deg = from;
    CHECK(plan_order(c).finish_s - c.now_s <= (best - c.now_s) * 1.03 + 1e-6);
  }
}

// Two colonies 4 m apart on the wind's line. By hand: the second stands in the first one's vapor.
TEST_CASE("downwind is counted where the vapor goes, not beside it") {
  OrderCase c = at_the_gate(2);
  c.sites[1].at = {0, 4};
  const auto wind = [&](double from) {
    OrderCase blown = c;
    blown.wind_from_deg = from;
    return plain_rotation(blown).downwind_s;
  };
  CHECK(wind(180) > 100);  // blows to the north, over the second colony
  CHECK(wind(0) > 20);     // over the first, when the second is under vapor
  CHECK(wind(90) == 0);    // across: nobody stands in it
}

TEST_CASE("the table of cloths: never worse with more") {
  const std::vector<ClothRow> rows = cloth_table(yard_of(6, 1, 3, 2), 1, 5);
  REQUIRE(rows.size() == 5);
  for (std::size_t i = 1; i < rows.size(); ++i) {
    CHECK(rows[i].cloths == static_cast<int>(i) + 1);
    CHECK(rows[i].finish_s <= rows[i - 1].finish_s);
    CHECK(rows[i].longest_seal_s >= rows[i - 1].longest_seal_s);
  }
}

TEST_CASE("what is wrong with a case is named by its field") {
  struct Bad {
    std::string name;
    std::string want;
    void (*spoil)(OrderCase&);
  };
  const Bad rows[] = {
      {"no speed", "walk_mps", [](OrderCase& c) { c.walk_mps = 0; }},
      {"no cloth", "cloths", [](OrderCase& c) { c.cloths = 0; }},
      {"no vaporizer", "vaporizers", [](OrderCase& c) { c.vaporizers = 0; }},
      {"negative seal", "seal_s", [](OrderCase& c) { c.seal_s = -1; }},
      {"endless dwell", "colonies[1].dwell_s", [](OrderCase& c) { c.sites[1].dwell_s = INFINITY; }},
      {"nowhere", "colonies[0].at", [](OrderCase& c) { c.sites[0].at.x = NAN; }},
      {"a name twice", "colonies[1].id", [](OrderCase& c) { c.sites[1].id = c.sites[0].id; }},
      {"too much vapor", "vaporizers",
       [](OrderCase& c) {
         for (OrderSite& s : c.sites) s.stage = OrderStage::Vapor;
       }},
      {"from the future", "colonies[0].since_s",
       [](OrderCase& c) { c.sites[0].stage = OrderStage::Vapor, c.sites[0].since_s = 5; }},
      {"a cloth that is not there", "colonies[0].cloth",
       [](OrderCase& c) { c.sites[0].stage = OrderStage::Covered, c.sites[0].cloth = 9; }},
  };
  CHECK(what_is_wrong(at_the_gate(1)) == "");
  for (const Bad& row : rows) {
    INFO(row.name);
    OrderCase c = at_the_gate(1);
    row.spoil(c);
    CHECK(what_is_wrong(c).starts_with(row.want));
  }
}

}  // namespace order_test
