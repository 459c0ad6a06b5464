#include <random>

#include "tests/support/evening.h"

namespace walk_test {

using namespace evening;

TEST_CASE("a colony goes from to do to done in three steps") {
  Keeper k = on_a_walk(2, 1);
  CHECK(k.stop(1).phase == Phase::ToDo);
  k.does(at(10), set(1));
  CHECK(k.stop(1).phase == Phase::UnderVapor);
  k.does(at(100), cover(1, 1));
  CHECK(k.stop(1).phase == Phase::Covered);
  k.does(at(700), uncover(1));
  CHECK(k.stop(1).phase == Phase::Done);
  CHECK_FALSE(complete(k.now()));
  k.does(at(710), ColonyPassedOver{walk(), colony(2), PassReason::TooWeak, {}});
  CHECK(complete(k.now()));
}

TEST_CASE("a walk refuses only the impossible, and says why") {
  Keeper k = on_a_walk(4, 2);
  k.does(at(10), set(1));
  k.does(at(100), cover(1, 1));
  k.does(at(110), set(2));
  struct Row {
    std::string name;
    Body body;
    Refusal want;
  };
  const Row rows[] = {
      {"lift early: unwise, possible", cover(2, 2), Refusal::None},
      {"with a cloth that lies elsewhere", cover(2, 1), Refusal::None},
      {"lift and leave open", uncover(2), Refusal::None},
      {"take the cloth early", uncover(1), Refusal::None},
      {"the vaporizer stands in C2", set(3), Refusal::VaporizerInUse},
      {"C2 is under vapor", set(2), Refusal::UnderVapor},
      {"no vaporizer 9 on this walk", set(3, 9), Refusal::NoSuchKit},
      {"nothing to lift", cover(3, 2), Refusal::NotUnderVapor},
      {"nothing to uncover", uncover(3), Refusal::NotCovered},
      {"no colony 9 on this walk", uncover(9), Refusal::ColonyNotInWalk},
      {"no cloth 9", cover(2, 9), Refusal::NoSuchKit},
      {"what dwells is not passed over", ColonyPassedOver{walk(), colony(2), PassReason::Other, {}},
       Refusal::UnderVapor},
      {"what is covered was treated", ColonyPassedOver{walk(), colony(1), PassReason::Other, {}},
       Refusal::AlreadyTreated},
      {"another to do", ColonyPassedOver{walk(), colony(3), PassReason::Other, {}}, Refusal::None},
      {"vapor ends before the walk does", WalkClosed{walk()}, Refusal::UnderVapor},
      {"nothing to resume", WalkResumed{walk()}, Refusal::NotPaused},
      {"no such walk", WalkPaused{walk(9)}, Refusal::NoSuchWalk},
      {"a mishap of a stranger", Mishap{walk(), colony(9), MishapKind::Spill, {}},
       Refusal::ColonyNotInWalk},
      {"confirmed twice", ProtectionConfirmed{walk(), Protection::Gloves},
       Refusal::AlreadyConfirmed},
  };
  for (const Row& r : rows) {
    INFO(r.name);
    CHECK(k.asks(at(120), r.body) == r.want);
  }
}

TEST_CASE("no vapor before every item of protection is confirmed") {
  Keeper k = keeper_with(1, 1);
  k.does(at(0), opening(k));
  const std::size_t items = enum_names(Protection{}).size();
  for (std::size_t i = 0; i < items; ++i) {
    CHECK(k.asks(at(1), set(1)) == Refusal::ProtectionMissing);
    k.does(at(1), ProtectionConfirmed{walk(), static_cast<Protection>(i)});
  }
  CHECK(k.asks(at(1), set(1)) == Refusal::None);
}

TEST_CASE("covering with a cloth that lies elsewhere takes it from there, as inferred") {
  Keeper k = on_a_walk(2, 1);
  k.does(at(10), set(1));
  k.does(at(100), cover(1, 1));
  k.does(at(110), set(2));
  k.does(at(200), cover(2, 1));
  CHECK(k.stop(1).phase == Phase::Done);
  CHECK(k.stop(1).treatments.back().uncover_inferred);
  CHECK(k.stop(1).treatments.back().uncovered_at == at(200));
  CHECK(lies_on(k.now(), cloth(1))->colony == colony(2));
  k.does(at(800), uncover(2));
  CHECK_FALSE(k.stop(2).treatments.back().uncover_inferred);
}

TEST_CASE("a colony that is done or was passed over may be set again") {
  Keeper k = on_a_walk(1, 1);
  k.does(at(5), ColonyPassedOver{walk(), colony(1), PassReason::BeesFlying, {}});
  k.does(at(10), set(1));
  CHECK_FALSE(k.stop(1).passed);
  k.does(at(20), uncover(1));
  k.does(at(30), set(1));
  CHECK(k.stop(1).treatments.size() == 2);
  CHECK(k.stop(1).phase == Phase::UnderVapor);
}

TEST_CASE("a dose over the label is recorded as such") {
  Keeper k = on_a_walk(2, 1);
  k.does(at(10), set(1, 1, Mass{2000}));
  k.does(at(100), cover(1, 1));
  k.does(at(110), set(2, 1, Mass{2001}));
  CHECK_FALSE(k.stop(1).treatments.back().over_label);
  CHECK(k.stop(2).treatments.back().over_label);
}

TEST_CASE("the last word on a colony's flight before its setting is the one that counts") {
  Keeper k = on_a_walk(2, 2);
  k.does(at(5), BeesFlying{walk(), colony(1), Flight::Heavy});
  k.does(at(8), BeesFlying{walk(), colony(1), Flight::None});
  k.does(at(10), set(1));
  CHECK(k.stop(1).treatments.back().flight == Flight::None);
  k.does(at(20), BeesFlying{walk(), colony(1), Flight::Heavy});
  k.does(at(30), BeesFlying{walk(), colony(1), Flight::None});
  CHECK(k.stop(1).treatments.back().flight == Flight::Heavy);  // under vapor the strongest counts
}

TEST_CASE("settings of one day add up to the label's most, over walks as well") {
  Keeper k = on_a_walk(1, 1);
  k.does(at(10), set(1));
  CHECK_FALSE(k.stop(1).treatments.back().over_label);
  k.does(at(100), uncover(1));
  k.does(at(110), set(1, 1, Mass{1}));
  CHECK(k.stop(1).treatments.back().over_label);
  CHECK(vapor_given_on(k.farm, colony(1), local_date(at(0)))->sum == Mass{2001});
  k.does(at(200), uncover(1));
  k.does(at(90'000), opening(k, 2));  // the next day
  confirm_all(k, 2);
  VaporizerSet next_day = set(1);
  next_day.walk = walk(2);
  k.does(at(90'010), next_day);
  CHECK_FALSE(find_stop(k.now(2), colony(1))->treatments.back().over_label);
}

TEST_CASE("after the walk is closed only a forgotten cloth and a mishap can follow") {
  Keeper k = on_a_walk(2, 1);
  k.does(at(10), set(1));
  k.does(at(100), cover(1, 1));
  k.does(at(200), WalkClosed{walk()});
  CHECK(k.asks(at(300), set(2)) == Refusal::WalkIsClosed);
  CHECK(k.asks(at(300), Mishap{walk(), colony(1), MishapKind::Stung, {}}) == Refusal::None);
  k.does(at(300), uncover(1));
  CHECK(k.stop(1).phase == Phase::Done);
}

TEST_CASE("yard-wide heavy flight marks what is under vapor and what is set after") {
  Keeper k = on_a_walk(3, 3);
  k.does(at(10), set(1));
  k.does(at(20), BeesFlying{walk(), {}, Flight::Heavy});
  k.does(at(100), cover(1, 1));
  k.does(at(110), set(2));
  k.does(at(120), BeesFlying{walk(), {}, Flight::None});
  k.does(at(200), cover(2, 2));
  k.does(at(210), set(3));
  CHECK(k.stop(1).treatments.back().flight == Flight::Heavy);
  CHECK(k.stop(2).treatments.back().flight == Flight::Heavy);
  CHECK(k.stop(3).treatments.back().flight == Flight::None);
}

namespace {

// Any act, sensible or not, on a walk of four colonies.
Body any_act(std::mt19937& random) {
  const auto pick = [&](int n) {
    return static_cast<int>(random() % static_cast<unsigned>(n)) + 1;
  };
  switch (pick(8)) {
    case 1:
    case 2:
      return set(pick(4), pick(2));
    case 3:
    case 4:
      return cover(pick(4), pick(3));
    case 5:
      return uncover(pick(4));
    case 6:
      return ColonyPassedOver{walk(), colony(pick(4)), PassReason::Other, {}};
    case 7:
      return BeesFlying{walk(), colony(pick(4)), static_cast<Flight>(pick(3) - 1)};
    default:
      return Mishap{walk(), colony(pick(4)), MishapKind::Spill, {}};
  }
}

}  // namespace

TEST_CASE("whatever a keeper does, the walk stays well formed") {
  for (unsigned seed = 1; seed <= 200; ++seed) {
    std::mt19937 random(seed);
    Keeper k = on_a_walk(4, 3, 2);
    for (int i = 0; i < 60; ++i) {
      const Body act = any_act(random);
      if (k.asks(at(i * 20), act) == Refusal::None) k.does(at(i * 20), act);
      REQUIRE(well_formed(k.now()));
    }
  }
}

}  // namespace walk_test
