#include "engine/guide/planned.h"

#include "tests/support/evening.h"

namespace planned_test {

using namespace evening;

namespace {

PlannedVisit visit(OrderDo act, int n, int start, int end) {
  PlannedVisit v{act, colony(n), {}, Seconds{start}, Seconds{end}};
  if (act != OrderDo::Set) v.cloth = cloth(1);
  return v;
}

// Two colonies, one cloth, in order; the plan takes from 20 s to 1470 s.
Keeper planned() {
  Keeper k = keeper_with(2, 1);
  WalkOpened o = opening(k);
  o.planned = {visit(OrderDo::Set, 1, 0, 20),        visit(OrderDo::Cover, 1, 110, 120),
               visit(OrderDo::Uncover, 1, 720, 726), visit(OrderDo::Set, 2, 730, 750),
               visit(OrderDo::Cover, 2, 840, 850),   visit(OrderDo::Uncover, 2, 1464, 1470)};
  k.does(at(0), o);
  confirm_all(k);
  return k;
}

}  // namespace

TEST_CASE("what was planned stands beside what was done, from the first vapor on") {
  Keeper k = planned();
  k.does(at(100), set(1));
  k.does(at(200), cover(1, 1));
  k.does(at(780), uncover(1));
  k.does(at(800), set(2));
  k.does(at(900), cover(2, 1));
  k.does(at(1640), uncover(2));
  const auto p = planned_and_done(k.now());
  REQUIRE(p);
  CHECK(p->planned == Seconds{1450});
  CHECK(p->done == Seconds{1540});
  CHECK(p->seal_planned == Seconds{600});
  CHECK(p->seal_done == Seconds{580});
  CHECK(words(*p) == "Planned 24 min, took 26. Shortest seal 10:00 planned, 9:40 done.");
}

TEST_CASE("settings out of the order are counted") {
  Keeper k = planned();
  k.does(at(100), set(2));
  k.does(at(200), cover(2, 1));
  k.does(at(800), uncover(2));
  k.does(at(820), set(1));
  const auto p = planned_and_done(k.now());
  REQUIRE(p);
  CHECK(p->elsewhere == 1);
  CHECK(words(*p).find("1 setting out of the order.") != std::string::npos);
}

TEST_CASE("a colony left out is counted, and moves no other") {
  Keeper k = planned();
  k.does(at(100), set(2));
  k.does(at(200), cover(2, 1));
  k.does(at(210), ColonyPassedOver{walk(), colony(1), PassReason::DeadOut});
  k.does(at(800), uncover(2));
  const auto p = planned_and_done(k.now());
  REQUIRE(p);
  CHECK(p->elsewhere == 0);
  CHECK(p->left_out == 1);
  CHECK(words(*p).find("1 left out.") != std::string::npos);
}

TEST_CASE("nothing to compare without a plan or a setting") {
  CHECK_FALSE(planned_and_done(planned().now()));
  Keeper k = on_a_walk(1, 1);
  k.does(at(10), set(1));
  CHECK_FALSE(planned_and_done(k.now()));
}

}  // namespace planned_test
