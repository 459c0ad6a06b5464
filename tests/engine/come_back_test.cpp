#include "engine/walk/come_back.h"

#include "tests/engine/evening.h"

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
  again.colonies = {colony(3)};
  k.does(at(30), again);
  CHECK(come_back_list(k.farm).empty());
  k.does(at(40), WalkClosed{walk(2)});
  REQUIRE(come_back_list(k.farm).size() == 1);
  CHECK(come_back_list(k.farm).at(0).walk == walk(2));
}
