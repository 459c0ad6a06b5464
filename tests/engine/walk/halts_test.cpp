// A vaporizer that gives no more vapor in mid-dwell: the dwell rests, and goes on or is done again.
#include "engine/learn/dwell.h"
#include "engine/walk/come_back.h"
#include "engine/walk/timers.h"
#include "tests/support/evening.h"

namespace halts_test {

using namespace evening;

namespace {

VaporHalted halted(int n) { return {walk(), colony(n), HaltWhy::BatteryEmpty}; }
VaporResumed resumed(int n) { return {walk(), colony(n)}; }

Timer dwell(const Keeper& k, int second) { return dwells(k.now(), at(second)).at(0); }

std::vector<ComeBackReason> reasons(const Keeper& k, int n) {
  return reasons_to_come_back(k.now(), k.stop(n));
}

}  // namespace

TEST_CASE("a dwell rests while there is no vapor and goes on from there") {
  Keeper k = on_a_walk(1, 1);
  k.does(at(10), set(1));
  k.does(at(60), halted(1));
  CHECK(dwell(k, 300).elapsed == Seconds{50});
  CHECK(dwell(k, 300).resting);
  CHECK(until_next_due(k.now(), at(300)) == std::nullopt);  // nothing comes due by waiting
  k.does(at(310), resumed(1));
  CHECK_FALSE(dwell(k, 320).resting);
  CHECK(dwell(k, 320).elapsed == Seconds{60});
  k.does(at(350), cover(1, 1));
  CHECK(dwell_of(k.stop(1).treatments.back())->length == Seconds{90});
  k.does(at(950), uncover(1));
  CHECK(reasons(k, 1).empty());
  CHECK(outcome_of(k.now(), k.stop(1)) == StopOutcome::Treated);
}

TEST_CASE("rests add up") {
  Keeper k = on_a_walk(1, 1);
  k.does(at(0), set(1));
  k.does(at(30), halted(1));
  k.does(at(100), resumed(1));
  k.does(at(120), halted(1));
  k.does(at(130), resumed(1));
  CHECK(dwell(k, 140).elapsed == Seconds{60});
  CHECK(k.stop(1).treatments.back().halts == 2);
}

TEST_CASE("lifted while it rests, a colony was not treated until it is done again") {
  Keeper k = on_a_walk(1, 1);
  k.does(at(10), set(1));
  k.does(at(75), halted(1));  // 65 s would be enough by the label's least of 60
  k.does(at(200), uncover(1));
  REQUIRE(reasons(k, 1).size() == 2);
  CHECK(reasons(k, 1)[0].why == ComeBackWhy::VaporHalted);
  CHECK(reasons(k, 1)[0].length == Seconds{65});
  CHECK(outcome_of(k.now(), k.stop(1)) == StopOutcome::ComeBack);
  k.does(at(300), set(1));
  k.does(at(390), cover(1, 1));
  k.does(at(990), uncover(1));
  CHECK(reasons(k, 1).empty());
  CHECK(outcome_of(k.now(), k.stop(1)) == StopOutcome::Treated);
}

TEST_CASE("a halt is said of a colony under vapor, once") {
  Keeper k = on_a_walk(2, 1);
  CHECK(k.asks(at(5), halted(1)) == Refusal::NotUnderVapor);
  CHECK(k.asks(at(5), resumed(1)) == Refusal::NotUnderVapor);
  k.does(at(10), set(1));
  CHECK(k.asks(at(20), resumed(1)) == Refusal::VaporNotHalted);
  k.does(at(20), halted(1));
  CHECK(k.asks(at(21), halted(1)) == Refusal::VaporIsHalted);
  CHECK(k.asks(at(21), halted(9)) == Refusal::ColonyNotInWalk);
}

TEST_CASE("nothing is learned from a dwell that rested") {
  Keeper k = on_a_walk(2, 2);
  k.does(at(10), set(1));
  k.does(at(40), halted(1));
  k.does(at(100), resumed(1));
  k.does(at(160), cover(1, 1));
  k.does(at(200), set(2));
  k.does(at(295), uncover(2));
  CHECK(dwells_seen(k.farm).counted.size() == 1);
  CHECK(dwells_seen(k.farm).left_out == 1);
}

TEST_CASE("a walk that ends early says why") {
  Keeper k = on_a_walk(2, 1);
  k.does(at(10), WalkClosed{walk(), LossWhy::Rain});
  CHECK(k.now().closed_why == LossWhy::Rain);
  CHECK(outcome_of(k.now(), k.stop(1)) == StopOutcome::NotReached);
}

}  // namespace halts_test
