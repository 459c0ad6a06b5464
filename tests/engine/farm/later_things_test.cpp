// A correction may name what came to the farm after the corrected entry; nothing falls for it.
#include <random>

#include "engine/farm/merge_order.h"
#include "engine/farm/would_fall.h"
#include "tests/support/evening.h"
#include "tests/support/lists_hold.h"

namespace later_things_test {

using namespace evening;

namespace {

Date day(unsigned d) {
  return Date{std::chrono::year{2026}, std::chrono::month{8}, std::chrono::day{d}};
}

LotId second_lot() { return id<LotId>(2); }
ColonyId newcomer() { return colony(50); }

// C1 was set, covered, opened; C2 covered after it with the same cloth. A lot, a battery and a
// colony are entered afterwards.
struct Later {
  Keeper k = on_a_walk(2, 1);
  EntryRef setting, counted, disposed, given, noted, brood;
  Later() {
    counted = k.does(at(50), CountTaken{colony(1), day(14), {}, 3, 300, {}, ""});
    disposed = k.does(at(51), AcidDisposed{lot(), Mass{500}, day(14), DisposalWhy::Spilled, ""});
    given = k.does(at(52), OtherTreatmentGiven{colony(1), day(13), Method::Strip, "strips"});
    noted = k.does(at(53), NoteWritten{{}, colony(1), "a new queen"});
    brood = k.does(at(54), BroodNoted{{colony(1)}, day(14), BroodFact::NoBrood, ""});
    setting = k.does(at(100), set(1));
    k.does(at(195), cover(1, 1));
    k.does(at(800), set(2));
    k.does(at(895), cover(2, 1));
    k.does(at(1600), uncover(2));
    k.does(at(1700), WalkClosed{walk()});
    StockReceived more;
    more.lot = second_lot(), more.product = "oxalic acid", more.code = "B", more.amount = {50'000};
    k.does(at(2000), more);
    k.does(at(2001), KitAdded{battery(2), KitSort::Battery, "B2"});
    k.does(at(2002), ColonyAdded{newcomer(), yard(), "C50", 2});
  }
  void correct(EntryRef entry, ReplacementBody words) {
    k.does(at(3000), EntryCorrected{entry, "read wrong", Replacement{std::move(words)}});
  }
  void all_count() {
    for (const Entry& e : k.farm.log) {
      INFO(kind(e.event.body));
      CHECK(e.fallen == Refusal::None);
    }
    CHECK(state_hash(fold_together(k.events)) == state_hash(k.farm));
    lists_hold(k.farm);
  }
};

}  // namespace

TEST_CASE("a treatment is corrected to a lot that was received afterwards") {
  Later l;
  VaporizerSet right = set(1);
  right.lot = second_lot();
  l.correct(l.setting, right);
  l.all_count();
  REQUIRE(l.k.stop(1).treatments.size() == 1);
  CHECK(l.k.stop(1).treatments[0].lot == second_lot());
  CHECK(l.k.stop(1).phase == Phase::Done);
  CHECK(l.k.farm.lots.at(second_lot()).used == Mass{2000});
  CHECK(l.k.farm.lots.at(second_lot()).received == Mass{50'000});
  CHECK(l.k.farm.lots.at(second_lot()).code == "B");
  CHECK(l.k.farm.lots.at(lot()).used == Mass{2000});
  const EntryRef got = [&] {
    EntryRef ref;
    for (const Event& e : l.k.events)
      if (const auto* s = std::get_if<StockReceived>(&e.body); s && s->lot == second_lot())
        ref = e.ref;
    return ref;
  }();
  CHECK(l.k.asks(at(3001), EntryStruck{got, "no"}) == Refusal::OthersStandOnIt);
}

TEST_CASE("a treatment is corrected to a battery that was entered afterwards") {
  Later l;
  VaporizerSet right = set(1);
  right.battery = battery(2);
  l.correct(l.setting, right);
  l.all_count();
  CHECK(l.k.farm.kit.at(battery(2)).settings_since_charge == 1);
  CHECK(l.k.farm.kit.at(battery(2)).name == "B2");
  CHECK(l.k.farm.kit.at(battery(1)).settings_since_charge == 1);
}

TEST_CASE("a disposal, a count, a note and another treatment are corrected to what came later") {
  Later l;
  l.correct(l.disposed, AcidDisposed{second_lot(), Mass{500}, day(14), DisposalWhy::Spilled, ""});
  l.correct(l.counted, CountTaken{newcomer(), day(14), {}, 3, 300, {}, ""});
  l.correct(l.given, OtherTreatmentGiven{newcomer(), day(13), Method::Strip, "strips"});
  l.correct(l.noted, NoteWritten{{}, newcomer(), "a new queen"});
  l.all_count();
  CHECK(l.k.farm.lots.at(second_lot()).disposed == Mass{500});
  CHECK(l.k.farm.counts.any_of(newcomer()));
  CHECK(l.k.farm.otherwise_treated.of(newcomer()).size() == 1);
}

TEST_CASE("a late entry is corrected to a lot that was received afterwards") {
  Later l;
  EnteredLate e;
  e.walk = walk(7), e.yard = yard(), e.colony = colony(1), e.on = day(13), e.dose = {1000};
  e.rules = rules();
  const EntryRef entered = l.k.does(at(2500), e);
  StockReceived third;
  third.lot = id<LotId>(3), third.product = "oxalic acid", third.amount = {10'000};
  l.k.does(at(2600), third);
  e.lot = third.lot;
  l.correct(entered, e);
  l.all_count();
  CHECK(l.k.farm.lots.at(third.lot).used == Mass{1000});
}

TEST_CASE("what needs its colony there and then is refused where that came later") {
  Later l;
  const auto refused = [&](EntryRef entry, ReplacementBody words) {
    return l.k.asks(at(3000), EntryCorrected{entry, "read wrong", Replacement{std::move(words)}});
  };
  CHECK(refused(l.brood, BroodNoted{{colony(1), newcomer()}, day(14), BroodFact::NoBrood, ""}) ==
        Refusal::NoSuchColony);
  CHECK(refused(l.brood, BroodNoted{{colony(2)}, day(14), BroodFact::NoBrood, ""}) ==
        Refusal::None);
  CHECK(refused(l.counted, CountTaken{colony(77), day(14), {}, 3, 300, {}, ""}) ==
        Refusal::NoSuchColony);
}

TEST_CASE("no correction makes another entry fall unseen") {
  std::size_t corrected = 0, refused = 0;
  for (unsigned seed = 1; seed <= 40; ++seed) {
    std::mt19937 random(seed);
    const auto pick = [&](int n) { return static_cast<int>(random() % static_cast<unsigned>(n)); };
    Later l;
    l.k.does(at(2500), CountTaken{newcomer(), day(14), {}, 1, 300, {}, ""});
    for (int n = 0; n < 25; ++n) {
      const Entry was = l.k.farm.log.copy(random() % l.k.farm.log.size());
      const auto words = words_of(was);
      if (!words || was.struck) continue;
      ReplacementBody now = words->body();
      std::visit(
          [&](auto& k) {
            if constexpr (requires { k.lot = std::optional<LotId>{}; }) {
              if (pick(2) == 0) k.lot = id<LotId>(1 + pick(3));
            } else if constexpr (requires {
                                   k.lot = LotId{};
                                   k.how;
                                 }) {
              k.lot = id<LotId>(1 + pick(3));
            }
            if constexpr (requires { k.battery = battery(1); }) k.battery = battery(1 + pick(3));
            if constexpr (requires {
                            k.colony = colony(1);
                            k.on;
                          })
              k.colony = colony(pick(2) == 0 ? 50 : 1 + pick(3));
          },
          now);
      const Event e = l.k.next(at(4000 + n), EntryCorrected{was.event.ref, "x", Replacement{now}});
      if (why_not(l.k.farm, e) != Refusal::None) {
        ++refused;
        continue;
      }
      REQUIRE(what_would_fall(l.k.farm, {&e, 1}).empty());
      l.k.does(e.stamp, e.body);
      ++corrected;
      l.all_count();
    }
  }
  CHECK(corrected > 200);
  CHECK(refused > 50);
}

}  // namespace later_things_test
