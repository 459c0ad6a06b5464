// Correcting an entry: struck and said anew in one act, and what follows from it.
#include "engine/farm/merge_order.h"
#include "engine/learn/battery.h"
#include "engine/register/register.h"
#include "engine/words/contradictions.h"
#include "engine/words/words.h"
#include "tests/support/evening.h"

namespace corrections_test {

using namespace evening;

namespace {

Date day(unsigned d) {
  return Date{std::chrono::year{2026}, std::chrono::month{8}, std::chrono::day{d}};
}

Replacement instead(ReplacementBody body) { return Replacement{std::move(body)}; }

// C1 was set with 5 g, covered and opened, and it was 2 g.
struct Typo {
  Keeper k = on_a_walk(2, 1);
  EntryRef wrong;
  Typo() {
    wrong = k.does(at(100), set(1, 1, Mass{5000}));
    k.does(at(195), cover(1, 1));
    k.does(at(800), uncover(1));
  }
  EntryRef correct(int seconds, EntryRef entry, Mass dose) {
    return k.does(at(seconds), EntryCorrected{entry, "wrong dose", instead(set(1, 1, dose))});
  }
};

std::vector<RegisterRow> rows(const Farm& farm) { return register_rows(farm, {}); }

}  // namespace

TEST_CASE("a corrected dose holds in the place of the wrong one, with all that followed it") {
  Typo t;
  t.correct(900, t.wrong, Mass{2000});
  const Treatment& now = t.k.stop(1).treatments.at(0);
  CHECK(now.dose.mg == 2000);
  CHECK(now.set_at.at == at(100).at);
  CHECK(t.k.stop(1).phase == Phase::Done);
  CHECK_FALSE(now.over_label);
  for (const Entry& e : t.k.farm.log) CHECK(e.fallen == Refusal::None);
}

TEST_CASE("stock follows a correction to the tenth of a gram") {
  Typo t;
  CHECK(t.k.farm.lots.at(lot()).left().mg == 95'000);
  t.correct(900, t.wrong, Mass{2100});
  CHECK(t.k.farm.lots.at(lot()).left().mg == 97'900);
}

TEST_CASE("what is learned of a battery follows a correction") {
  Typo t;
  const double before = charges_seen(t.k.farm).at(0).heating;
  t.correct(900, t.wrong, Mass{2000});
  CHECK(charges_seen(t.k.farm).at(0).heating < before);
}

TEST_CASE("a correction can be corrected, and struck with all it stood for") {
  Typo t;
  const EntryRef first = t.correct(900, t.wrong, Mass{3000});
  const EntryRef second = t.correct(901, first, Mass{2000});
  CHECK(t.k.stop(1).treatments.at(0).dose.mg == 2000);
  CHECK(t.k.asks(at(902), EntryCorrected{t.wrong, "again", instead(set(1))}) ==
        Refusal::AlreadyStruck);
  t.k.does(at(903), EntryStruck{second, "it was C2"});
  CHECK(t.k.stop(1).treatments.empty());
  CHECK(t.k.farm.lots.at(lot()).used.mg == 0);
}

TEST_CASE("the register shows the wrong words struck and the right ones beside them") {
  Typo t;
  const EntryRef right = t.correct(900, t.wrong, Mass{2000});
  const auto all = rows(t.k.farm);
  REQUIRE(all.size() == 2);
  CHECK(all[0].dose->mg == 5000);
  CHECK(all[0].struck->reason == "wrong dose");
  CHECK(all[0].corrected_by == right);
  CHECK(all[1].dose->mg == 2000);
  CHECK(all[1].entry == right);
  CHECK(all[1].corrects == t.wrong);
  CHECK(all[1].counts());
  CHECK(all[1].at->at == at(100).at);
  CHECK(all[1].dwell->length == Seconds{95});
}

TEST_CASE("only an entry of the same kind about the same thing can stand in its place") {
  Typo t;
  struct Row {
    std::string name;
    EntryCorrected c;
    Refusal want;
  };
  VaporizerSet other_colony = set(2);
  VaporizerSet no_lot = set(1);
  no_lot.lot = id<LotId>(9);
  const Row list[] = {
      {"fits", {t.wrong, "", instead(set(1))}, Refusal::None},
      {"another colony", {t.wrong, "", instead(other_colony)}, Refusal::NotCorrectable},
      {"another kind", {t.wrong, "", instead(NoteWritten{{}, {}, "x"})}, Refusal::NotCorrectable},
      {"no dose", {t.wrong, "", instead(set(1, 1, Mass{0}))}, Refusal::OutOfRange},
      {"no such lot", {t.wrong, "", instead(no_lot)}, Refusal::NoSuchLot},
      {"no such entry", {{device(), 999}, "", instead(set(1))}, Refusal::NoSuchEntry},
      {"a cover", {{device(), t.wrong.seq + 1}, "", instead(set(1))}, Refusal::NotCorrectable},
  };
  for (const Row& r : list) {
    INFO(r.name);
    CHECK(t.k.asks(at(900), r.c) == r.want);
  }
}

TEST_CASE("a lot whose acid was used is corrected, though it could not be struck") {
  Typo t;
  EntryRef received;
  for (const Entry& e : t.k.farm.log)
    if (std::holds_alternative<StockReceived>(e.event.body)) received = e.event.ref;
  CHECK(t.k.asks(at(900), EntryStruck{received, "x"}) == Refusal::OthersStandOnIt);
  StockReceived right;
  right.lot = lot();
  right.product = "oxalic acid";
  right.code = "24-118";
  right.amount = Mass{275'000};
  const EntryRef by = t.k.does(at(900), EntryCorrected{received, "typo", instead(right)});
  CHECK(t.k.farm.lots.at(lot()).code == "24-118");
  CHECK(t.k.farm.lots.at(lot()).left().mg == 270'000);
  CHECK(t.k.asks(at(901), EntryStruck{by, "x"}) == Refusal::OthersStandOnIt);
}

TEST_CASE("a count moves to the right colony and day") {
  Keeper k = keeper_with(2, 1);
  const EntryRef wrong =
      k.does(at(0), CountTaken{colony(1), day(13), CountMethod::AlcoholWash, 9, 300, {}, {}});
  const CountTaken right{colony(2), day(12), CountMethod::AlcoholWash, 6, 300, {}, {}};
  k.does(at(10), EntryCorrected{wrong, "wrong hive", instead(right)});
  REQUIRE(k.farm.counts.size() == 1);
  CHECK(k.farm.counts[0].taken.colony == colony(2));
  CHECK(k.farm.counts[0].taken.mites == 6);
  CHECK(k.farm.counts[0].entry == wrong);
}

TEST_CASE("a corrected passing over keeps the come-back list right") {
  Keeper k = on_a_walk(1, 1);
  const EntryRef pass =
      k.does(at(100), ColonyPassedOver{walk(), colony(1), PassReason::TooWeak, ""});
  k.does(at(110), WalkClosed{walk()});
  k.does(at(120), EntryCorrected{pass, "typo",
                                 instead(ColonyPassedOver{walk(), colony(1), PassReason::Queenless,
                                                          "no bees"})});
  const auto list = come_back_list(k.farm);
  REQUIRE(list.size() == 1);
  CHECK(list[0].reasons[0].passed == PassReason::Queenless);
  CHECK(rows(k.farm).size() == 2);
}

TEST_CASE("another treatment as corrected is what the register and the rules read") {
  Keeper k = keeper_with(1, 1);
  OtherTreatmentGiven given{colony(1), day(10), Method::Thymol};
  given.product = "Thymol gel";
  given.lot = "T-1";
  const EntryRef wrong = k.does(at(0), given);
  given.lot = "T-2";
  given.on = day(11);
  k.does(at(10), EntryCorrected{wrong, "read it again", instead(given)});
  const auto now = holds<OtherTreatmentGiven>(k.farm, *find_entry(k.farm, wrong));
  REQUIRE(now.has_value());
  CHECK(now->lot == "T-2");
  RegisterQuery q;
  q.lot = LotWanted{{}, "T-2"};
  CHECK(register_rows(k.farm, q).size() == 1);
}

TEST_CASE("what a correction did is said in one line") {
  Typo t;
  t.correct(900, t.wrong, Mass{2000});
  const std::string line = describe(t.k.events.back().body, t.k.farm);
  INFO(line);
  CHECK(line.starts_with("C1: corrected entry "));
  CHECK(line.find("(5 g dihydrate set") != std::string::npos);
  CHECK(line.find("to 2 g dihydrate set") != std::string::npos);
  CHECK(line.ends_with(": wrong dose"));
}

TEST_CASE("replayed and folded together, corrections give the same farm") {
  Typo t;
  const EntryRef first = t.correct(900, t.wrong, Mass{3000});
  t.correct(901, first, Mass{2000});
  CHECK(state_hash(fold_together(t.k.events)) == state_hash(t.k.farm));
}

TEST_CASE("two tablets that correct one entry are listed with both sides until it is settled") {
  Typo t;
  std::vector<Event> events = t.k.events;
  const DeviceId other = id<DeviceId>(2);
  events.push_back({{device(), t.k.farm.last_seq.at(device()) + 1},
                    at(900),
                    EntryCorrected{t.wrong, "a", instead(set(1, 1, Mass{2000}))}});
  events.push_back(
      {{other, 1}, at(950), EntryCorrected{t.wrong, "b", instead(set(1, 1, Mass{1000}))}});
  Farm farm = fold_together(events);
  CHECK(find_stop(farm.walks.at(walk()), colony(1))->treatments.at(0).dose.mg == 2000);
  auto found = contradictions(farm);
  REQUIRE(found.size() == 1);
  CHECK(found[0].what == Contradiction::CorrectedTwice);
  CHECK(found[0].sides.size() == 2);
  events.push_back({{other, 2}, at(960), ContradictionSettled{found[0].sides, "2 g it was"}});
  CHECK(contradictions(fold_together(events)).empty());
}

TEST_CASE("corrections that name each other hold in nobody's place") {
  std::vector<Event> events = on_a_walk(1, 1).events;
  const std::int64_t n = static_cast<std::int64_t>(events.size());
  events.push_back(
      {{device(), n + 1}, at(50), EntryCorrected{{device(), n + 2}, "", instead(set(1))}});
  events.push_back(
      {{device(), n + 2}, at(51), EntryCorrected{{device(), n + 1}, "", instead(set(1))}});
  const Farm farm = fold_together(events);
  CHECK(farm.log[static_cast<std::size_t>(n)]->fallen == Refusal::NoSuchEntry);
  CHECK(rows(farm).empty());
}

TEST_CASE("corrections that strike each other, as only a forged checkpoint says, lead nowhere") {
  Farm farm;
  const EntryRef one{device(), 1}, other{device(), 2};
  const Replacement words{ReplacementBody{NoteWritten{yard(), {}, "no"}}};
  farm.log.push_back({one, at(0), EntryCorrected{other, "forged", words}});
  farm.log.push_back({other, at(1), EntryCorrected{one, "forged", words}});
  farm.log.set_struck(0, Struck{other, "forged", at(1)});
  farm.log.set_struck(1, Struck{one, "forged", at(0)});
  CHECK(correction_of(farm, *farm.log[0]) == nullptr);
  CHECK(correction_of(farm, *farm.log[1]) == nullptr);
}

}  // namespace corrections_test
