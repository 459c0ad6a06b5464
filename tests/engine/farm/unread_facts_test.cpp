// Work split between tablets by chance: no fact of one is taken out of the farm by another who had
// not read it, in whatever order they meet.
#include "engine/farm/unread_facts.h"

#include <algorithm>
#include <functional>
#include <random>

#include "engine/farm/clocks.h"
#include "engine/farm/merge_order.h"
#include "engine/farm/strike_marks.h"
#include "engine/farm/would_fall.h"
#include "engine/words/contradictions.h"
#include "tests/support/evening.h"
#include "tests/support/lists_hold.h"

namespace unread_facts_test {

using namespace evening;

namespace {

// One tablet, which says before its own entries what it has read of the others.
struct Hand {
  DeviceId id;
  Farm farm{};

  [[nodiscard]] std::int64_t next() const {
    const auto last = farm.last_seq.find(id);
    return last == farm.last_seq.end() ? 1 : last->second + 1;
  }
  [[nodiscard]] Refusal asks(const Stamp& when, const Body& body) const {
    return why_not(farm, {{id, next()}, when, body});
  }
  // Nothing: it is impossible here.
  std::optional<EntryRef> enters(const Stamp& when, const Body& body) {
    if (asks(when, body) != Refusal::None) return std::nullopt;
    const Clocks clocks(farm.log, farm.branches);
    EntryRef ref;
    for (const Event& e : to_come_last(clocks, {{id, next()}, when, body})) {
      farm = apply(std::move(farm), e);
      ref = e.ref;
    }
    return ref;
  }
  void reads(const Hand& other) {
    std::vector<Event> fresh;
    other.farm.log.scan(0, [&](std::size_t, const Entry& e) {
      if (!farm.log.find(e.event.ref)) fresh.push_back(e.event);
    });
    farm = take_together(std::move(farm), std::move(fresh));
  }
};

std::vector<Event> all_of(const Farm& farm) {
  std::vector<Event> events;
  for (const Entry& e : farm.log) events.push_back(e.event);
  return events;
}

EntryRef ref_of(const Farm& farm, const std::function<bool(const Body&)>& is) {
  for (const Entry& e : farm.log)
    if (is(e.event.body)) return e.event.ref;
  FAIL("no such entry");
  return {};
}

// A yard with two colonies and kit, which both have.
std::pair<Hand, Hand> two_hands() {
  Hand a{id<DeviceId>(1)}, b{id<DeviceId>(2)};
  for (const Event& e : keeper_with(2, 1).events) REQUIRE(a.enters(e.stamp, e.body));
  b.reads(a);
  REQUIRE(b.enters(at(1), NoteWritten{yard(), {}, "the gate sticks"}));
  a.reads(b);
  REQUIRE(a.enters(at(2), NoteWritten{yard(), {}, "mended"}));
  b.reads(a);
  return {a, b};
}

// Strikes all that says so, the last one first.
std::vector<EntryRef> strike_all(Hand& hand, int seconds,
                                 const std::function<bool(const Body&)>& wanted) {
  std::vector<EntryRef> strikes;
  std::vector<EntryRef> refs;
  for (const Entry& e : hand.farm.log)
    if (e.counts() && wanted(e.event.body)) refs.push_back(e.event.ref);
  std::reverse(refs.begin(), refs.end());
  for (const EntryRef& ref : refs) {
    const auto strike = hand.enters(at(seconds++), EntryStruck{ref, "not ours"});
    REQUIRE(strike);
    strikes.push_back(*strike);
  }
  return strikes;
}

bool about_places(const Body& body) {
  return std::holds_alternative<YardAdded>(body) || std::holds_alternative<ColonyAdded>(body) ||
         std::holds_alternative<NoteWritten>(body);
}

void walk_at_dusk(Hand& a, int seconds) {
  Keeper k;
  k.farm = a.farm;
  REQUIRE(a.enters(at(seconds), opening(k)));
  for (std::size_t i = 0; i < enum_names(Protection{}).size(); ++i)
    REQUIRE(a.enters(at(seconds), ProtectionConfirmed{walk(), static_cast<Protection>(i)}));
  REQUIRE(a.enters(at(seconds + 10), set(1)));
  REQUIRE(a.enters(at(seconds + 105), cover(1, 1)));
}

std::size_t struck_unread(const Farm& farm) {
  const auto found = contradictions(farm);
  return static_cast<std::size_t>(std::count_if(found.begin(), found.end(), [](const auto& c) {
    return c.what == Contradiction::StruckUnread;
  }));
}

}  // namespace

TEST_CASE("a yard that one struck at noon and another walked at dusk stays, with its walk") {
  auto [a, b] = two_hands();
  const auto strikes = strike_all(b, 100, about_places);
  REQUIRE_FALSE(b.farm.yards.contains(yard()));
  walk_at_dusk(a, 20'000);
  for (Hand* hand : {&a, &b}) {
    Hand both = *hand;
    both.reads(hand == &a ? b : a);
    CHECK(both.farm.yards.contains(yard()));
    CHECK(both.farm.colonies.contains(colony(1)));
    REQUIRE(walk_under_way(both.farm, a.id) != nullptr);
    CHECK(find_stop(*walk_under_way(both.farm, a.id), colony(1))->phase == Phase::Covered);
    // The yard, C1, C2 (the walk was to reach it); the notes are struck.
    CHECK(struck_unread(both.farm) == 3);
    CHECK(state_hash(both.farm) == state_hash(fold_together(all_of(both.farm))));
  }
  a.reads(b);
  REQUIRE(a.enters(at(21'000), uncover(1)));
  REQUIRE(a.enters(at(21'010), WalkClosed{walk()}));
  const auto open = contradictions(a.farm);
  for (const Contradicted& c : open) {
    CHECK(words(c, a.farm).find("had not been read") != std::string::npos);
    REQUIRE(a.enters(at(21'020), ContradictionSettled{c.sides, "it is ours"}));
  }
  CHECK(contradictions(a.farm).empty());
  b.reads(a);
  CHECK(state_hash(b.farm) == state_hash(a.farm));
}

TEST_CASE("a strike that was read before others went on takes effect") {
  auto [a, b] = two_hands();
  strike_all(b, 100, about_places);
  a.reads(b);
  CHECK_FALSE(a.farm.yards.contains(yard()));
  CHECK(struck_unread(a.farm) == 0);
  CHECK(a.asks(at(200), CountTaken{colony(1), local_date(at(0)), {}, 3, 300, {}, ""}) ==
        Refusal::NoSuchColony);
}

TEST_CASE("a count keeps its colony, and a lot from which was treated stays on the shelf") {
  auto [a, b] = two_hands();
  const auto is_stock = [](const Body& body) {
    return std::holds_alternative<StockReceived>(body);
  };
  const auto is_second = [](const Body& body) {
    const auto* c = std::get_if<ColonyAdded>(&body);
    return c != nullptr && c->colony == colony(2);
  };
  REQUIRE(b.enters(at(100), EntryStruck{ref_of(b.farm, is_stock), "no"}));
  REQUIRE(b.enters(at(101), EntryStruck{ref_of(b.farm, is_second), "no"}));
  REQUIRE(a.enters(at(50), CountTaken{colony(2), local_date(at(0)), {}, 3, 300, {}, ""}));
  REQUIRE(a.enters(at(200), AcidDisposed{lot(), Mass{500}, local_date(at(0)), {}, ""}));
  a.reads(b);
  CHECK(a.farm.counts.size() == 1);
  CHECK(a.farm.lots.at(lot()).disposed == Mass{500});
  CHECK(struck_unread(a.farm) == 2);
}

TEST_CASE("a second delivery is struck though the lot was used meanwhile") {
  auto [a, b] = two_hands();
  StockReceived more;
  more.lot = lot(), more.product = "oxalic acid", more.amount = {50'000};
  const auto second = b.enters(at(100), more);
  REQUIRE(second);
  a.reads(b);
  REQUIRE(a.enters(at(110), AcidDisposed{lot(), Mass{500}, local_date(at(0)), {}, ""}));
  REQUIRE(b.enters(at(120), EntryStruck{*second, "entered twice"}));
  a.reads(b);
  CHECK(struck_unread(a.farm) == 0);
  CHECK(a.farm.lots.at(lot()).left() == Mass{99'500});
}

TEST_CASE("a strike is taken back by an entry, and what it struck counts again") {
  auto [a, b] = two_hands();
  const auto counted =
      a.enters(at(10), CountTaken{colony(1), local_date(at(0)), {}, 3, 300, {}, ""});
  REQUIRE(counted);
  const auto strike = a.enters(at(20), EntryStruck{*counted, "wrong hive"});
  REQUIRE(strike);
  CHECK(a.farm.counts.empty());
  CHECK(a.asks(at(25), EntryStruck{*strike, "no"}) == Refusal::StrikesAStrike);
  const auto back = a.enters(at(30), StrikeTakenBack{*strike, "it was the right hive"});
  REQUIRE(back);
  CHECK(a.farm.counts.size() == 1);
  CHECK(a.asks(at(40), StrikeTakenBack{*strike, "again"}) == Refusal::NotStruck);
  CHECK(a.asks(at(40), StrikeTakenBack{*counted, "no strike"}) == Refusal::NoSuchEntry);
  CHECK(a.asks(at(40), EntryStruck{*back, "no"}) == Refusal::StrikesAStrike);
  REQUIRE(a.enters(at(50), EntryStruck{*counted, "wrong hive all the same"}));
  CHECK(a.farm.counts.empty());
  CHECK(state_hash(fold_together(all_of(a.farm))) == state_hash(a.farm));
  b.reads(a);
  CHECK(state_hash(b.farm) == state_hash(a.farm));
}

TEST_CASE("a correction is taken back, and the first words hold again") {
  Keeper k = on_a_walk(1, 1);
  const EntryRef setting = k.does(at(100), set(1));
  const EntryRef first =
      k.does(at(200), EntryCorrected{setting, "typo", Replacement{set(1, 1, Mass{1500})}});
  const EntryRef second =
      k.does(at(201), EntryCorrected{first, "typo", Replacement{set(1, 1, Mass{1000})}});
  k.does(at(202), StrikeTakenBack{second, "read again"});
  CHECK(k.stop(1).treatments.at(0).dose == Mass{1500});
  k.does(at(203), StrikeTakenBack{first, "read again"});
  CHECK(k.stop(1).treatments.at(0).dose == Mass{2000});
  CHECK(state_hash(fold_together(k.events)) == state_hash(k.farm));
}

TEST_CASE("a taking back under which facts would fall is refused") {
  Keeper k = on_a_walk(2, 1);
  const EntryRef closed = k.does(at(10), WalkClosed{walk()});
  const EntryRef strike = k.does(at(20), EntryStruck{closed, "not done yet"});
  k.does(at(30), set(1));
  CHECK(k.asks(at(40), StrikeTakenBack{strike, "no"}) == Refusal::OthersStandOnIt);
}

namespace {

class Split {
 public:
  explicit Split(unsigned seed) : random_(seed) {
    const auto [a, b] = two_hands();
    hands_ = {a, b, Hand{id<DeviceId>(3)}};
    hands_[2].reads(a);
  }

  void one() {
    Hand& hand = hands_[static_cast<std::size_t>(pick(3))];
    seconds_ += pick(600);
    const Stamp when = at(seconds_ + pick(4000));  // clocks that are not together
    switch (pick(14)) {
      case 0:
        return hand.reads(hands_[static_cast<std::size_t>(pick(3))]);
      case 1:
        return may(hand, when, CountTaken{some(), local_date(when), {}, pick(9), 300, {}, ""});
      case 2:
      case 3:
      case 4:
        return strike(hand, when);
      case 5:
        return may(hand, when, ColonyMoved{some(), some_yard(), {}});
      case 6:
        return may(hand, when, BroodNoted{{colony(1), colony(2)}, local_date(when), {}, ""});
      case 7:
        return take_back(hand, when);
      case 8:
        return late(hand, when);
      case 9:
        return add(hand, when);
      case 10:
        return pick(2) == 0 ? may(hand, when, ColonyLost{some(), "robbed"})
                            : may(hand, when, YardLost{some_yard(), "sold"});
      case 11:
        return correct(hand, when);
      default:
        return walk_on(hand, when);
    }
  }
  [[nodiscard]] std::vector<Hand>& hands() { return hands_; }

 private:
  int pick(int below) { return static_cast<int>(random_() % static_cast<unsigned>(below)); }
  ColonyId some() { return pick(4) == 0 ? colony(11 + pick(8)) : colony(1 + pick(2)); }
  YardId some_yard() { return id<YardId>(1 + pick(1 + yards_)); }
  Entry any(const Hand& hand) { return hand.farm.log.copy(random_() % hand.farm.log.size()); }
  static void may(Hand& hand, const Stamp& when, const Body& body) {
    (void)hand.enters(when, body);
  }

  void strike(Hand& hand, const Stamp& when) {
    for (int tries = 0; tries < 4; ++tries) {
      const Entry e = any(hand);
      if (!std::holds_alternative<ClockFollowed>(e.event.body) &&
          hand.enters(when, EntryStruck{e.event.ref, "slip"}))
        return;
    }
  }
  void take_back(Hand& hand, const Stamp& when) {
    for (const Entry& e : hand.farm.log)
      if (e.struck && pick(6) == 0) return may(hand, when, StrikeTakenBack{e.struck->by, "no"});
  }
  void add(Hand& hand, const Stamp& when) {
    if (pick(4) == 0 && yards_ < 4)
      may(hand, when, YardAdded{id<YardId>(1 + ++yards_), "Y", {}, "", ""});
    may(hand, when, ColonyAdded{id<ColonyId>(10 + ++added_), some_yard(), "N", 1});
    StockReceived more;
    more.lot = id<LotId>(1 + pick(3)), more.product = "oxalic acid", more.amount = {9000};
    if (pick(3) == 0) may(hand, when, more);
  }
  void late(Hand& hand, const Stamp& when) {
    EnteredLate e;
    e.walk = id<WalkId>(500 + pick(30)), e.yard = some_yard(), e.colony = some();
    e.on = local_date(at(0)), e.dose = {1000}, e.rules = rules(), e.lot = lot();
    may(hand, when, e);
  }
  void correct(Hand& hand, const Stamp& when) {
    const Entry was = any(hand);
    const auto words = words_of(was);
    if (!words) return;
    ReplacementBody now = words->body();
    if (auto* count = std::get_if<CountTaken>(&now)) count->colony = some();
    if (auto* late = std::get_if<EnteredLate>(&now)) late->yard = some_yard();
    if (auto* setting = std::get_if<VaporizerSet>(&now)) setting->lot = id<LotId>(1 + pick(3));
    may(hand, when, EntryCorrected{was.event.ref, "slip", Replacement{now}});
  }
  // Each tablet its own walks.
  void walk_on(Hand& hand, const Stamp& when) {
    const Walk* walk = walk_under_way(hand.farm, hand.id);
    if (walk == nullptr) {
      WalkOpened o;
      o.walk = id<WalkId>(++walks_), o.yard = some_yard(), o.rules = rules();
      for (int n = 1; n <= 16; ++n)
        if (hand.farm.colonies.contains(colony(n))) o.colonies.push_back(colony(n));
      o.vaporizers = {vaporizer(1)}, o.cloths = {cloth(1)};
      may(hand, when, o);
      for (std::size_t i = 0; i < enum_names(Protection{}).size(); ++i)
        may(hand, when, ProtectionConfirmed{o.walk, static_cast<Protection>(i)});
      return;
    }
    const WalkId id = walk->id;
    const ColonyId which = some();
    VaporizerSet s = set(1);
    s.walk = id, s.colony = which;
    switch (pick(6)) {
      case 0:
        return may(hand, when, ColonyCovered{id, which, cloth(1)});
      case 1:
        return may(hand, when, ColonyUncovered{id, which});
      case 2:
        return may(hand, when, WalkClosed{id});
      case 3:
        return may(hand, when, ColonyPassedOver{id, which, PassReason::TooWeak, ""});
      default:
        return may(hand, when, s);
    }
  }

  std::mt19937 random_;
  std::vector<Hand> hands_;
  int seconds_ = 100, walks_ = 0, added_ = 0, yards_ = 0;
};

// Two say the same, or two corrected one entry: shown, and nothing else goes with it.
bool only_double(Refusal why) { return why == Refusal::AlreadyStruck || why == Refusal::NotStruck; }

void no_fact_fell(const Farm& farm) {
  for (const Entry& e : farm.log) {
    if (e.fallen == Refusal::None || only_double(e.fallen) || !facts_of(e.event.body).is_fact())
      continue;
    // A strike that waits for people has taken nothing away.
    const bool waits = std::holds_alternative<EntryCorrected>(e.event.body) ||
                       std::holds_alternative<StrikeTakenBack>(e.event.body);
    if (waits && e.fallen == Refusal::OthersStandOnIt) continue;
    INFO(std::string(kind(e.event.body))
         << " " << e.event.ref.seq << " " << std::string(name(e.fallen)));
    REQUIRE(e.fallen == Refusal::None);
  }
}

}  // namespace

TEST_CASE("no fact of one tablet is removed by another who had not read it, in any order") {
  std::size_t waiting = 0, facts = 0, struck = 0;
  for (unsigned seed = 1; seed <= 60; ++seed) {
    INFO("seed " << seed);
    Split split(seed);
    for (int n = 0; n < 70; ++n) split.one();
    auto& hands = split.hands();
    Hand x{id<DeviceId>(8)}, y{id<DeviceId>(9)};
    for (Hand& h : hands) {
      REQUIRE(state_hash(h.farm) == state_hash(fold_together(all_of(h.farm))));
      x.reads(h);
    }
    for (const std::size_t h : {2, 0, 2, 1, 0}) y.reads(hands[h]);
    REQUIRE(state_hash(x.farm) == state_hash(y.farm));
    REQUIRE(state_hash(x.farm) == state_hash(fold_together(all_of(x.farm))));
    no_fact_fell(x.farm);
    lists_hold(x.farm);
    waiting += struck_unread(x.farm);
    for (const Entry& e : x.farm.log) {
      facts += facts_of(e.event.body).is_fact() && e.counts() ? 1 : 0;
      struck += e.struck ? 1 : 0;
    }
  }
  CHECK(waiting > 50);
  CHECK(struck > 300);
  CHECK(facts > 1000);
}

}  // namespace unread_facts_test
