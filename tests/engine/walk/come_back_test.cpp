#include "engine/walk/come_back.h"

#include "tests/support/evening.h"

namespace come_back_test {

using namespace evening;

namespace {

std::vector<ComeBackReason> reasons(const Keeper& k, int n) {
  return reasons_to_come_back(k.now(), k.stop(n));
}

// One whole treatment of colony n with these lengths, from second `start`.
void treat(Keeper& k, int n, int start, int dwell, int seal) {
  k.does(at(start), set(n));
  k.does(at(start + dwell), cover(n, 1));
  k.does(at(start + dwell + seal), uncover(n));
}

}  // namespace

TEST_CASE("short dwells and short seals come back, to the second") {
  struct Row {
    std::string name;
    int dwell, seal;
    std::vector<ComeBackWhy> why;
  };
  const Row rows[] = {
      {"good", 90, 600, {}},
      {"just long enough", 60, 300, {}},
      {"short dwell", 59, 600, {ComeBackWhy::ShortDwell}},
      {"short seal", 90, 299, {ComeBackWhy::ShortSeal}},
      {"both", 10, 10, {ComeBackWhy::ShortDwell, ComeBackWhy::ShortSeal}},
  };
  for (const Row& r : rows) {
    INFO(r.name);
    Keeper k = on_a_walk(1, 1);
    treat(k, 1, 10, r.dwell, r.seal);
    const auto got = reasons(k, 1);
    REQUIRE(got.size() == r.why.size());
    for (std::size_t i = 0; i < got.size(); ++i) CHECK(got[i].why == r.why[i]);
  }
}

TEST_CASE("lifted with nothing to close the entrance is a seal of no length") {
  Keeper k = on_a_walk(1, 1);
  k.does(at(10), set(1));
  k.does(at(100), uncover(1));
  REQUIRE(reasons(k, 1).size() == 1);
  CHECK(reasons(k, 1).at(0).why == ComeBackWhy::ShortSeal);
  CHECK(reasons(k, 1).at(0).length == Ms{0});
}

TEST_CASE("a second, good treatment makes a short one good") {
  Keeper k = on_a_walk(1, 1);
  treat(k, 1, 10, 90, 20);
  CHECK_FALSE(reasons(k, 1).empty());
  treat(k, 1, 1000, 90, 600);
  CHECK(reasons(k, 1).empty());
}

TEST_CASE("two half treatments make no whole one") {
  Keeper k = on_a_walk(1, 1);
  treat(k, 1, 10, 95, 20);
  treat(k, 1, 1000, 20, 650);
  REQUIRE(reasons(k, 1).size() == 1);
  CHECK(reasons(k, 1).at(0).why == ComeBackWhy::ShortDwell);
}

TEST_CASE("a length that nobody knows is said to be unknown, not short") {
  Keeper k = on_a_walk(1, 1);
  k.does(at(10), set(1));
  Stamp rebooted = at(100);
  rebooted.boot = "boot-2";
  rebooted.at -= std::chrono::hours{3};
  k.does(rebooted, cover(1, 1));
  k.does(after(rebooted, Seconds{600}), uncover(1));
  REQUIRE(reasons(k, 1).size() == 1);
  CHECK(reasons(k, 1).at(0).why == ComeBackWhy::ClockUnsure);
}

TEST_CASE("heavy flight, mishaps and passing over come back with their reasons") {
  Keeper k = on_a_walk(3, 1);
  k.does(at(5), BeesFlying{walk(), colony(1), Flight::Heavy});
  treat(k, 1, 10, 90, 600);
  k.does(at(800), ColonyPassedOver{walk(), colony(2), PassReason::Aggressive, {}});
  k.does(at(810), Mishap{walk(), colony(3), MishapKind::LeakingSeal, {}});
  CHECK(reasons(k, 1).at(0).why == ComeBackWhy::FlyingHeavy);
  CHECK(reasons(k, 2).at(0).passed == PassReason::Aggressive);
  CHECK(reasons(k, 3).empty());  // its turn is still to come
  treat(k, 3, 900, 90, 600);
  CHECK(reasons(k, 3).empty());  // what went wrong before a good treatment was made good
  k.does(at(1700), Mishap{walk(), colony(3), MishapKind::LeakingSeal, {}});
  CHECK(reasons(k, 3).at(0).mishap == MishapKind::LeakingSeal);
}

TEST_CASE("closing early puts what was not reached, and what is still covered, on the list") {
  Keeper k = on_a_walk(2, 1);
  k.does(at(10), set(1));
  k.does(at(100), cover(1, 1));
  CHECK(come_back_list(k.farm).empty());
  k.does(at(200), WalkClosed{walk()});
  const auto list = come_back_list(k.farm);
  REQUIRE(list.size() == 2);
  CHECK(list[0].reasons.at(0).why == ComeBackWhy::LeftCovered);
  CHECK(list[1].reasons.at(0).why == ComeBackWhy::NotReached);
}

TEST_CASE("a colony leaves the list by a good later walk, by settling, or when it is lost") {
  Keeper k = on_a_walk(3, 1);
  k.does(at(10), WalkClosed{walk()});
  REQUIRE(come_back_list(k.farm).size() == 3);
  k.does(at(20), ComeBackSettled{colony(1), "requeened, treated elsewhere"});
  k.does(at(20), ColonyLost{colony(2), "dead-out"});
  WalkOpened again = opening(k, 2);
  again.colonies = {colony(1), colony(3)};
  k.does(at(30), again);
  REQUIRE(come_back_list(k.farm).size() == 1);  // until it is treated, not until it is tried
  k.does(at(40), WalkClosed{walk(2)});
  REQUIRE(come_back_list(k.farm).size() == 2);
  CHECK(come_back_list(k.farm).at(0).walk == walk(2));
  CHECK(come_back_list(k.farm).at(1).walk == walk(1));
}

namespace {

// A walk of two colonies, closed while colony 1 is still covered.
Keeper left_covered() {
  Keeper k = on_a_walk(2, 1);
  k.does(at(10), set(1));
  k.does(at(100), cover(1, 1));
  k.does(at(200), WalkClosed{walk()});
  return k;
}

}  // namespace

TEST_CASE("a cloth left on is not forgotten by opening the next walk") {
  Keeper k = left_covered();
  k.does(at(300), opening(k, 2));
  REQUIRE(!come_back_list(k.farm).empty());
  CHECK(come_back_list(k.farm).at(0).reasons.at(0).why == ComeBackWhy::LeftCovered);
  k.does(at(800), uncover(1));  // of the closed walk
  for (const ComeBack& c : come_back_list(k.farm)) CHECK(c.colony != colony(1));
  CHECK(k.farm.cloths_left.empty());
}

TEST_CASE("a cloth left on comes off when it, or its colony, is used in a later walk") {
  for (const bool same_colony : {true, false}) {
    Keeper k = left_covered();
    k.does(at(300), opening(k, 2));
    confirm_all(k, 2);
    VaporizerSet next = set(same_colony ? 1 : 2);
    next.walk = walk(2);
    k.does(at(900), next);
    k.does(at(990), ColonyCovered{walk(2), next.colony, cloth(1)});
    CHECK(k.stop(1).phase == Phase::Done);
    CHECK(k.stop(1).treatments.back().uncover_inferred);
    CHECK(k.stop(1).treatments.back().uncovered_at == at(same_colony ? 900 : 990));
  }
}

TEST_CASE("the totals of a walk are apart from each other and add up to its colonies") {
  Keeper k = on_a_walk(5, 1);
  treat(k, 1, 10, 90, 600);
  treat(k, 2, 1000, 10, 600);  // a short dwell: treated, and to come back to
  k.does(at(2000), ColonyPassedOver{walk(), colony(3), PassReason::TooWeak, {}});
  CHECK(totals_of(k.now()) == WalkTotals{1, 1, 1, 0, 2});
  k.does(at(2100), set(4));
  k.does(at(2190), cover(4, 1));
  k.does(at(2200), WalkClosed{walk()});
  CHECK(totals_of(k.now()) == WalkTotals{1, 2, 1, 1, 0});
  CHECK(totals_of(k.now()).sum() == k.now().stops.size());
}

}  // namespace come_back_test
