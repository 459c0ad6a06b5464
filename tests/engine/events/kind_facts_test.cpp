// What each kind states of itself (engine/events/kind_facts.h), held against what the farm does.
#include <type_traits>

#include "engine/events/things.h"
#include "engine/farm/packed_state.h"
#include "tests/support/any_body.h"

namespace kind_facts_test {

using namespace evening;

namespace {

// A kind that leaves one of them out does not compile.
template <class... Facts>
constexpr bool none_has_a_default(Facts KindFacts::*...) {
  return !(std::is_default_constructible_v<Facts> || ...);
}
static_assert(none_has_a_default(&KindFacts::says, &KindFacts::leaves, &KindFacts::brings,
                                 &KindFacts::walk, &KindFacts::yard, &KindFacts::colonies,
                                 &KindFacts::moves, &KindFacts::correctable,
                                 &KindFacts::in_register, &KindFacts::stands_against,
                                 &KindFacts::stands_in_part, &KindFacts::noun));

std::string state_bytes(const Farm& farm) {
  PackWords words;
  Packer into(words);
  pack(static_cast<const FarmState&>(farm), into);
  return into.take();
}

}  // namespace

TEST_CASE("a set of refusals has those it was made of, and never none") {
  constexpr Refusals kTwo{Refusal::UnderVapor, Refusal::WalkedApart};
  static_assert(kTwo.has(Refusal::UnderVapor) && kTwo.has(Refusal::WalkedApart) && kTwo.any());
  static_assert(!kTwo.has(Refusal::NotCovered) && !kTwo.has(Refusal::None));
  constexpr Refusals kEmpty{Refusal::None};
  static_assert(!kEmpty.any() && !kEmpty.has(Refusal::None));
  CHECK(enum_names(Refusal{}).back() == std::string("vapor_not_halted"));
}

TEST_CASE("an entry of a kind that leaves but words changes nothing of the farm's state") {
  std::mt19937 random(20);
  AnyBody any_body(random, 1);
  int words = 0;
  for (int log = 0; log < 40; ++log) {
    Keeper k = keeper_with(3, 2);
    for (int i = 0; i < 60; ++i) {
      const Body body = any_body();
      const Event e = k.next(at(60 * i), body);
      if (why_not(k.farm, e) != Refusal::None) continue;
      const std::string before = state_bytes(k.farm);
      k.farm = apply(std::move(k.farm), e);
      if (facts_of(body).leaves != Leaves::Words) continue;
      ++words;
      INFO(std::string(kind(body)));
      CHECK(state_bytes(k.farm) == before);
    }
  }
  CHECK(words > 50);
}

TEST_CASE("a step names a walk that must be there, and what brings a thing names it") {
  std::mt19937 random(21);
  AnyBody any_body(random, 1);
  for (int i = 0; i < 4000; ++i) {
    const Body body = any_body();
    const KindFacts& facts = facts_of(body);
    INFO(std::string(kind(body)));
    CHECK((walk_of(body) != nullptr) == (facts.walk != InWalk::No));
    if (facts.is_step())
      CHECK(why_not(Farm{}, {{device(), 1}, at(0), body}) == Refusal::NoSuchWalk);
    if (facts.says != Says::Correction)
      CHECK(brought_by(body).has_value() == (facts.brings != Brings::Nothing));
    CHECK(replacement_of(body).has_value() == facts.correctable);
  }
}

}  // namespace kind_facts_test
