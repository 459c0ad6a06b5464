#include "engine/guide/advice.h"

#include "tests/support/evening.h"

namespace advice_test {

using namespace evening;

namespace {

// Does what the advice says, when it says so; returns how many taps that took.
int follow(Keeper& k, int& second) {
  int taps = 0;
  for (Advice a = what_now(k.now(), at(second)); a.what != Do::Finished;
       a = what_now(k.now(), at(second))) {
    if (a.timer && !a.timer->due())
      second += static_cast<int>(std::chrono::duration_cast<Seconds>(a.timer->left()).count());
    const auto body = carry_out(k.now(), a, Mass{2000}, 2, false, battery(1), lot());
    REQUIRE(body);
    k.does(at(second), *body);
    second += 15;
    ++taps;
    REQUIRE(taps < 1000);
  }
  return taps;
}

}  // namespace

TEST_CASE("following the advice takes two taps a colony and one a cloth") {
  for (const int colonies : {1, 2, 3, 7, 16})
    for (const int cloths : {1, 2, 3, 5})
      for (const int vaporizers : {1, 2, 3}) {
        Keeper k = on_a_walk(colonies, cloths, vaporizers);
        int second = 10;
        const int taps = follow(k, second);
        INFO(colonies << " colonies, " << cloths << " cloths, " << vaporizers << " vaporizers");
        CHECK(taps <= 2 * colonies + cloths);
        CHECK(complete(k.now()));
      }
}

TEST_CASE("with 3 cloths, no waiting and 60 to 90 s a colony a cloth stays about 3 to 5 minutes") {
  // Common practice, no published source.
  for (const int per_colony : {60, 75, 90}) {
    Keeper k = on_a_walk(12, 3);
    int second = 10;
    for (int n = 1; n <= 12; ++n) {
      k.does(at(second), set(n));
      second += per_colony;
      const Advice a = what_now(k.now(), at(second));
      k.does(at(second), *carry_out(k.now(), a, Mass{2000}, 2, false, {}, {}));
    }
    for (int n = 1; n <= 9; ++n) {
      const auto seal = seal_of(k.stop(n).treatments.back());
      REQUIRE(seal);
      CHECK(seal->length >= std::chrono::minutes{3});
      CHECK(seal->length <= std::chrono::minutes{5});
    }
  }
}

TEST_CASE("what now, in the keeper's own order") {
  Keeper k = keeper_with(3, 1);
  k.does(at(0), opening(k));
  CHECK(what_now(k.now(), at(1)).what == Do::ConfirmProtection);
  confirm_all(k);
  CHECK(what_now(k.now(), at(2)).what == Do::Set);
  CHECK(what_now(k.now(), at(2)).colony == colony(1));
  k.does(at(10), set(1));
  CHECK(what_now(k.now(), at(50)).what == Do::WaitForDwell);
  CHECK(what_now(k.now(), at(50)).too_short);
  CHECK_FALSE(what_now(k.now(), at(80)).too_short);
  CHECK(what_now(k.now(), at(100)).what == Do::Cover);
  k.does(at(100), cover(1, 1));
  CHECK(what_now(k.now(), at(101)).colony == colony(2));
  k.does(at(110), set(2));
  const Advice a = what_now(k.now(), at(200));
  CHECK(a.what == Do::Cover);
  CHECK(a.cloth == cloth(1));
  CHECK(a.cloth_from->colony == colony(1));
}

TEST_CASE("a second vaporizer goes to the next colony while the first one dwells") {
  Keeper k = on_a_walk(3, 3, 2);
  k.does(at(10), set(1, 1));
  const Advice a = what_now(k.now(), at(20));
  CHECK(a.what == Do::Set);
  CHECK(a.colony == colony(2));
  CHECK(a.vaporizer == vaporizer(2));
  k.does(at(30), set(2, 2));
  CHECK(what_now(k.now(), at(40)).what == Do::WaitForDwell);
  CHECK(what_now(k.now(), at(40)).colony == colony(1));
}

TEST_CASE("the advice follows a keeper who taps another colony") {
  Keeper k = on_a_walk(3, 2);
  CHECK(what_now(k.now(), at(5), colony(3)).colony == colony(3));
  k.does(at(10), set(3));
  const Advice busy = what_now(k.now(), at(20), colony(1));
  CHECK(busy.what == Do::Set);
  CHECK(busy.obstacle == Refusal::VaporizerInUse);
  k.does(at(100), cover(3, 1));
  CHECK(what_now(k.now(), at(200), colony(3)).what == Do::WaitForSeal);
  CHECK(what_now(k.now(), at(700), colony(3)).what == Do::Uncover);
  CHECK(what_now(k.now(), at(700)).colony == colony(1));
  k.does(at(700), uncover(3));
  CHECK(what_now(k.now(), at(710), colony(3)).what == Do::SetAgain);
}

TEST_CASE("without a cloth the vaporizer is lifted and nothing closes the entrance") {
  Keeper k = on_a_walk(1, 0);
  k.does(at(10), set(1));
  const auto body = carry_out(k.now(), what_now(k.now(), at(100)), {}, 1, false, {}, {});
  REQUIRE(body);
  CHECK(std::holds_alternative<ColonyUncovered>(*body));
}

TEST_CASE("a paused walk asks to be resumed") {
  Keeper k = on_a_walk(1, 1);
  k.does(at(10), WalkPaused{walk()});
  CHECK(what_now(k.now(), at(20)).what == Do::Resume);
  k.does(at(30), WalkResumed{walk()});
  CHECK(what_now(k.now(), at(31)).what == Do::Set);
}

TEST_CASE("the next steps look ahead without changing anything") {
  Keeper k = keeper_with(2, 1);
  k.does(at(0), opening(k));
  struct Row {
    std::string name;
    Do what;
    int colony;
  };
  const Row rows[] = {{"set 1", Do::Set, 1},
                      {"cover 1", Do::WaitForDwell, 1},
                      {"set 2", Do::Set, 2},
                      {"cover 2", Do::WaitForDwell, 2},
                      {"uncover 2", Do::WaitForSeal, 2}};
  const auto gate = steps_after(k.now(), at(1), 5);
  REQUIRE(gate.size() == 5);
  for (std::size_t i = 0; i < 5; ++i) {
    INFO(rows[i].name);
    CHECK(gate[i].what == rows[i].what);
    CHECK(gate[i].colony == colony(rows[i].colony));
  }
  confirm_all(k);
  CHECK(steps_after(k.now(), at(2), 3).size() == 3);
  CHECK(steps_after(k.now(), at(2), 3).at(0).what == Do::WaitForDwell);
}

}  // namespace advice_test
