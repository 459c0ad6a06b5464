#include "storage/trust/trust_rules.h"

#include <doctest/doctest.h>

#include "tests/support/journal_fixture.h"

namespace trust_rules_test {

using namespace storage;
using fixture::kOther;

namespace {

PublicKey key(std::uint8_t n) {
  PublicKey k{};
  k[0] = n;
  return k;
}

// A tablet that said key 1 as its third entry and signed its tenth.
TabletFacts keyed() { return {{{3, key(1)}}, {{{10, {}}, key(1)}}, {}}; }

struct Row {
  std::string name;
  TabletFacts facts;
  Decisions decided;
  std::int64_t through;
  HeldWhy why;
};

template <class... F>
Decisions after(F... decide) {
  Decisions d;
  (decide(d), ...);
  return d;
}

const auto pair_key = [](Decisions& d) { d.trust_key(key(1)); };
const auto pair_words = [](Decisions& d) { d.trust_words(fingerprint(key(1))); };
const auto pair_another = [](Decisions& d) { d.trust_key(key(9)); };
const auto known = [](Decisions& d) { d.trust_known(kOther); };
const auto refuse_8 = [](Decisions& d) { d.refuse(kOther, 8); };
const auto refuse_key = [](Decisions& d) { d.refuse_key(key(1)); };
const auto take_5 = [](Decisions& d) { d.take_in(kOther, 5); };
const auto take_50 = [](Decisions& d) { d.take_in(kOther, 50); };

}  // namespace

TEST_CASE("up to where a tablet counts follows from its keys, its signatures and the decisions") {
  const TabletFacts without{};
  TabletFacts said_late = keyed();
  said_late.keys[0].seq = 11;  // behind the signature
  TabletFacts by_another = keyed();
  by_another.signatures[0].key = key(2);
  TabletFacts own_before = without;
  own_before.written_here = Proof{6, {}};
  const auto kAll = kAllEntries;
  const Row rows[] = {
      {"nobody ever paired: all counts", without, {}, kAll, HeldWhy::Nothing},
      {"nobody ever paired, with a key: all counts", keyed(), {}, kAll, HeldWhy::Nothing},
      {"refused, nobody paired", without, after(refuse_8), 7, HeldWhy::Refused},
      {"a stranger", without, after(pair_another), 0, HeldWhy::NotPaired},
      {"a stranger with a key", keyed(), after(pair_another), 0, HeldWhy::NotPaired},
      {"paired by its key", keyed(), after(pair_key), 10, HeldWhy::NotSigned},
      {"paired by its words", keyed(), after(pair_words), 10, HeldWhy::NotSigned},
      {"paired, but another key signed", by_another, after(pair_key), 0, HeldWhy::NotSigned},
      {"paired, the key was said later", said_late, after(pair_key), 0, HeldWhy::NotSigned},
      {"known, of an earlier version", without, after(known, pair_another), kAll, HeldWhy::Nothing},
      {"known, and says a key since", keyed(), after(known), 10, HeldWhy::NotSigned},
      {"known, its key signed nothing", by_another, after(known), 2, HeldWhy::NotSigned},
      {"taken in", without, after(pair_another, take_5), 5, HeldWhy::NotPaired},
      {"refused after it was paired", keyed(), after(pair_key, refuse_8), 7, HeldWhy::Refused},
      {"refused with its key", keyed(), after(pair_key, refuse_8, refuse_key), 7, HeldWhy::Refused},
      {"another tablet with a refused key", keyed(), after(pair_key, refuse_key), 0,
       HeldWhy::NotPaired},
      {"paired anew", keyed(), after(pair_key, refuse_key, pair_key), 10, HeldWhy::NotSigned},
      {"refused, and then taken in", without, after(pair_another, refuse_8, take_50), 50,
       HeldWhy::NotPaired},
      {"what this store wrote under an id that it had", own_before, after(pair_another), 6,
       HeldWhy::NotPaired},
  };
  for (const Row& r : rows) {
    INFO(r.name);
    const Bound bound = bound_of(kOther, r.facts, r.decided);
    CHECK(bound.through() == r.through);
    CHECK(bound.why == r.why);
  }
}

TEST_CASE("of two refusals the earlier number holds") {
  const Decisions d = after([](Decisions& x) { x.refuse(kOther, 20); }, refuse_8);
  CHECK(d.limit(kOther) == 7);
}

}  // namespace trust_rules_test
