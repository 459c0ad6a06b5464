// What is entered afterwards says both when it happened and when it was entered.
#include <functional>

#include "engine/farm/merge_order.h"
#include "engine/learn/dwell.h"
#include "engine/register/register.h"
#include "engine/rounds/due.h"
#include "engine/season/given.h"
#include "engine/words/words.h"
#include "tests/support/evening.h"

namespace late_test {

using namespace evening;

namespace {

Date day(unsigned d) {
  return Date{std::chrono::year{2026}, std::chrono::month{8}, std::chrono::day{d}};
}

EnteredLate vapor(int n, unsigned on, int walk_n = 7) {
  EnteredLate e;
  e.walk = walk(walk_n);
  e.yard = yard();
  e.colony = colony(n);
  e.on = day(on);
  e.minute = 20 * 60 + 15;
  e.dose = Mass{1500};
  e.brood_boxes = 2;
  e.lot = lot();
  e.rules = rules();
  e.operator_name = "Wren Aldous";
  return e;
}

EnteredLate pass(int n, unsigned on, int walk_n = 7) {
  EnteredLate e = vapor(n, on, walk_n);
  e.dose = {};
  e.lot.reset();
  e.passed = PassReason::Queenless;
  return e;
}

}  // namespace

TEST_CASE("a late treatment makes its own walk, takes acid and stands in the register") {
  Keeper k = keeper_with(2, 1);
  const EntryRef ref = k.does(at(0), vapor(1, 10));
  const Walk& w = k.now(7);
  CHECK(w.past);
  CHECK(w.closed.has_value());
  CHECK(k.farm.lots.at(lot()).used.mg == 1500);
  const auto rows = register_rows(k.farm, {});
  REQUIRE(rows.size() == 1);
  CHECK(rows[0].date == day(10));
  CHECK(clock_time(*rows[0].at) == "20:15");
  CHECK(rows[0].entered->at == at(0).at);
  CHECK(rows[0].outcome == Outcome::Treated);
  CHECK(rows[0].operator_name == "Wren Aldous");
  CHECK(rows[0].entry == ref);
  CHECK_FALSE(rows[0].dwell.has_value());
  CHECK(come_back_list(k.farm).empty());
}

TEST_CASE("colonies entered under one walk stand in one walk, and it can be a round") {
  Keeper k = keeper_with(3, 1);
  k.does(at(0), CoursePlanned{id<CourseId>(1), yard(), {day(10), day(15)}});
  k.does(at(1), vapor(1, 10));
  k.does(at(2), vapor(2, 10));
  CHECK(k.now(7).stops.size() == 2);
  const auto rounds = rounds_of(k.farm, k.farm.courses.at(id<CourseId>(1)));
  CHECK(rounds[0].walked == walk(7));
  CHECK_FALSE(rounds[1].walked.has_value());
}

TEST_CASE("a colony that nobody tapped is entered into the walk that was closed") {
  Keeper k = on_a_walk(2, 1);
  k.does(at(100), set(1));
  k.does(at(195), cover(1, 1));
  k.does(at(800), uncover(1));
  k.does(at(900), WalkClosed{walk()});
  REQUIRE(come_back_list(k.farm).size() == 1);
  k.does(at(1000), vapor(2, 14, 1));
  CHECK(come_back_list(k.farm).empty());
  CHECK(k.stop(2).treatments.size() == 1);
  CHECK_FALSE(k.now().past);
  CHECK(k.asks(at(1001), EntryStruck{{device(), k.farm.last_seq.at(device())}, "no"}) ==
        Refusal::None);
}

TEST_CASE("only lengths that are known can be short, and none teaches anything") {
  Keeper k = keeper_with(2, 1);
  EnteredLate e = vapor(1, 10);
  e.dwell = Seconds{90};
  e.seal = Seconds{100};
  k.does(at(0), e);
  k.does(at(1), vapor(2, 10));
  const auto list = come_back_list(k.farm);
  REQUIRE(list.size() == 1);
  CHECK(list[0].colony == colony(1));
  CHECK(list[0].reasons[0].why == ComeBackWhy::ShortSeal);
  CHECK(register_rows(k.farm, {})[0].outcome == Outcome::ShortSeal);
  CHECK(dwells_seen(k.farm).counted.empty());
}

TEST_CASE("a late passing over brings the colony back, unless it was seen since") {
  Keeper k = keeper_with(2, 1);
  k.does(at(0), pass(1, 10));
  REQUIRE(come_back_list(k.farm).size() == 1);
  k.does(at(1), vapor(1, 12, 8));
  CHECK(come_back_list(k.farm).empty());
  k.does(at(2), pass(1, 11, 9));  // older than the treatment
  CHECK(come_back_list(k.farm).empty());
  CHECK(vapor_days(k.farm, colony(1)).size() == 1);
}

TEST_CASE("doses of one day count together, whenever they were entered") {
  Keeper k = on_a_walk(1, 1);
  k.does(at(100), set(1, 1, Mass{1500}));
  k.does(at(195), cover(1, 1));
  k.does(at(800), uncover(1));
  k.does(at(900), WalkClosed{walk()});
  k.does(at(1000), vapor(1, 14));  // 1.5 g and 1.5 g: over 2 g for two boxes
  CHECK(k.now(7).stops[0].treatments[0].over_label);
  CHECK(k.farm.colonies.at(colony(1)).vapor->times == 2);
}

TEST_CASE("the impossible is refused with its reason") {
  Keeper k = on_a_walk(2, 1);
  struct Row {
    std::string name;
    std::function<void(EnteredLate&)> change;
    Refusal want;
  };
  const Row rows[] = {
      {"fits", [](EnteredLate&) {}, Refusal::None},
      {"tomorrow", [](EnteredLate& e) { e.on = day(15); }, Refusal::OutOfRange},
      {"no such minute", [](EnteredLate& e) { e.minute = 1440; }, Refusal::OutOfRange},
      {"no dose", [](EnteredLate& e) { e.dose = {}; }, Refusal::OutOfRange},
      {"a dose and passed", [](EnteredLate& e) { e.passed = PassReason::Other; },
       Refusal::OutOfRange},
      {"no such lot", [](EnteredLate& e) { e.lot = id<LotId>(9); }, Refusal::NoSuchLot},
      {"no such colony", [](EnteredLate& e) { e.colony = colony(9); }, Refusal::NoSuchColony},
      {"no such yard", [](EnteredLate& e) { e.yard = id<YardId>(9); }, Refusal::NoSuchYard},
      {"no walk", [](EnteredLate& e) { e.walk = {}; }, Refusal::NoSuchWalk},
      {"a walk that goes on", [](EnteredLate& e) { e.walk = walk(1); },
       Refusal::AnotherWalkUnderWay},
  };
  for (const Row& r : rows) {
    INFO(r.name);
    EnteredLate e = vapor(1, 10);
    r.change(e);
    CHECK(k.asks(at(50), e) == r.want);
  }
}

TEST_CASE("acid that was disposed of leaves the shelf") {
  Keeper k = keeper_with(1, 1);
  const EntryRef ref = k.does(
      at(0), AcidDisposed{lot(), Mass{12'300}, day(14), DisposalWhy::Spoiled, "council yard"});
  CHECK(k.farm.lots.at(lot()).left().mg == 87'700);
  CHECK(describe(k.events.back().body, k.farm) ==
        "12.3 g of oxalic acid disposed of on 2026-08-14, spoiled: council yard");
  k.does(at(1), EntryCorrected{ref, "typo",
                               Replacement{AcidDisposed{lot(), Mass{12'400}, day(14),
                                                        DisposalWhy::Spoiled, "council yard"}}});
  CHECK(k.farm.lots.at(lot()).left().mg == 87'600);
  CHECK(k.asks(at(2), AcidDisposed{id<LotId>(9), Mass{1}, day(14)}) == Refusal::NoSuchLot);
  CHECK(k.asks(at(2), AcidDisposed{lot(), Mass{0}, day(14)}) == Refusal::OutOfRange);
}

TEST_CASE("late entries replay and fold together to the same farm") {
  Keeper k = keeper_with(2, 1);
  k.does(at(0), vapor(1, 10));
  k.does(at(1), pass(2, 10));
  CHECK(state_hash(fold_together(k.events)) == state_hash(k.farm));
  const EntryRef last{device(), k.farm.last_seq.at(device())};
  k.does(at(2), EntryCorrected{last, "typo", Replacement{vapor(2, 11)}});
  CHECK(k.now(7).stops.at(1).treatments.size() == 1);
  CHECK(state_hash(fold_together(k.events)) == state_hash(k.farm));
}

// rules(): 1 g a box and day at most; the colony has two boxes.
TEST_CASE("an overdose entered late is marked however much came after it") {
  Keeper k = keeper_with(2, 1);
  k.does(at(0), vapor(1, 10, 7));
  k.does(at(0), vapor(1, 12, 8));
  k.does(at(1), vapor(2, 13, 9));
  k.does(at(2), vapor(1, 10, 10));  // 3 g on the 10th, of at most 2 g
  CHECK_FALSE(k.now(7).stops[0].treatments[0].over_label);
  CHECK_FALSE(k.now(8).stops[0].treatments[0].over_label);
  CHECK(k.now(10).stops[0].treatments[0].over_label);
  CHECK(k.farm.colonies.at(colony(1)).vapor->on == day(12));
  CHECK(k.farm.colonies.at(colony(1)).vapor->sum == Mass{1500});
  CHECK(register_rows(k.farm, {})[1].over_label);
}

TEST_CASE("a setting by a clock that is a day behind takes nothing from the sums of both days") {
  Keeper k = keeper_with(1, 1);
  k.does(at(0), vapor(1, 14, 7));
  k.does(at(0), vapor(1, 13, 8));
  Stamp behind = at(1);
  behind.at -= std::chrono::days{1};
  k.does(behind, opening(k, 1));
  for (std::size_t i = 0; i < enum_names(Protection{}).size(); ++i)
    k.does(behind, ProtectionConfirmed{walk(1), static_cast<Protection>(i)});
  k.does(behind, VaporizerSet{walk(1), colony(1), vaporizer(1), {}, lot(), Mass{1000}, 2, false});
  CHECK(k.stop(1).treatments[0].over_label);  // 2.5 g on the 13th
  k.does(at(2), vapor(1, 14, 9));
  CHECK(k.now(9).stops[0].treatments[0].over_label);  // 3 g on the 14th
}

}  // namespace late_test
