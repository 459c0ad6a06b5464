#include "engine/register/register.h"

#include <algorithm>

#include "tests/support/register_fixture.h"

namespace register_test {

using namespace engine;
using namespace fixture;

namespace {

RegisterRow row_of(const std::vector<RegisterRow>& rows, int n, Method method = Method::Vapor) {
  for (const RegisterRow& r : rows)
    if (r.colony == colony(n) && r.method == method) return r;
  FAIL("no row of colony " << n);
  return {};
}

std::vector<RegisterRow> all(const Farm& farm) { return register_rows(farm, {}); }

}  // namespace

TEST_CASE("every colony of a walk has a row that says how it ended") {
  const auto rows = all(evening().farm);
  struct Row {
    std::string name;
    int colony;
    Outcome want;
  };
  const Row wants[] = {
      {"treated", 1, Outcome::Treated},        {"short seal", 2, Outcome::ShortSeal},
      {"over the label", 3, Outcome::Treated}, {"passed over", 4, Outcome::PassedOver},
      {"left open", 5, Outcome::LeftOpen},     {"struck", 6, Outcome::Struck},
      {"not reached", 7, Outcome::NotReached},
  };
  CHECK(rows.size() == 9);  // with the formic acid, and A6 again: not reached, as it was struck
  for (const Row& r : wants) {
    INFO(r.name);
    CHECK(std::string(name(row_of(rows, r.colony).outcome)) == std::string(name(r.want)));
  }
}

// Fields: the union register of EU 2019/6 Art. 108, the UK rules and 7 USC 6519.
TEST_CASE("a treated colony's row holds what the record duties ask for") {
  const RegisterRow r = row_of(all(evening().farm), 1);
  CHECK(iso_date(r.date) == "2026-08-14");
  CHECK(clock_time(*r.at) == "19:00");
  CHECK(r.yard_name == "Thistle Bank");
  CHECK(r.colony_name == "A1");
  CHECK(r.product == "Oxalic acid dihydrate, technical");
  CHECK(r.registration == "REG-7");
  CHECK(r.lot_code == "24-118");
  CHECK(iso_date(*r.lot_expiry) == "2026-08-01");
  CHECK(r.lot_expired);
  CHECK(r.supplier == "Fold & Daughters");
  CHECK(r.receipt == "R-31");
  CHECK(r.withdrawal_days == 0);
  CHECK(r.operator_name == "Wren Aldous");
  CHECK(r.operator_address == "2 Quarry Cottages, Nether Fold");
  CHECK(r.reason == "3 mites in 100 bees");
  CHECK(r.brood_boxes == 1);
  CHECK(r.supers_on == false);
}

// 90.034 / 126.065 = 0.71419: molar masses of CAS 144-62-7 and 6153-56-6.
TEST_CASE("the dose stands with its basis and both equivalents") {
  const RegisterRow r = row_of(all(evening().farm), 1);
  CHECK(r.dose == Mass{1000});
  CHECK(r.basis == Basis::Dihydrate);
  CHECK(r.dihydrate_equal == Mass{1000});
  CHECK(r.anhydrous_equal == Mass{714});
}

TEST_CASE("dwell and seal are written with whether the end was inferred") {
  const auto rows = all(evening().farm);
  CHECK(row_of(rows, 1).dwell->length == 95s);
  CHECK(row_of(rows, 1).seal->length == 680s);
  CHECK_FALSE(row_of(rows, 1).seal_end_inferred);
  CHECK(row_of(rows, 2).seal->length == 100s);
  CHECK(row_of(rows, 2).seal_end_inferred);
  CHECK_FALSE(row_of(rows, 5).seal.has_value());
}

TEST_CASE("over the label and supers against the label are marked") {
  const auto rows = all(evening().farm);
  CHECK_FALSE(row_of(rows, 1).over_label);
  CHECK(row_of(rows, 3).over_label);
  CHECK_FALSE(row_of(rows, 3).supers_against_label);
  CHECK(row_of(rows, 5).supers_against_label);
}

TEST_CASE("a struck setting keeps its row, its reason and its dose") {
  const RegisterRow r = row_of(all(evening().farm), 6);
  REQUIRE(r.struck.has_value());
  CHECK(r.struck->reason == "tapped the wrong hive");
  CHECK(r.dose == Mass{1000});
  CHECK(r.lot_code == "24-118");
  CHECK_FALSE(r.counts());
}

TEST_CASE("a struck setting that was the colony's only one leaves the colony not reached") {
  const auto rows = all(evening().farm);
  const auto sixes = std::count_if(rows.begin(), rows.end(),
                                   [](const RegisterRow& r) { return r.colony == colony(6); });
  CHECK(sixes == 2);
}

TEST_CASE("the opening of a walk cannot be struck from under its treatments") {
  const Pen pen = evening();
  const std::size_t rows = all(pen.farm).size();
  for (const Entry& e : pen.farm.log)
    if (std::holds_alternative<WalkOpened>(e.event.body))
      CHECK(pen.asks(EntryStruck{e.event.ref, "wrong yard"}) == Refusal::OthersStandOnIt);
  CHECK(all(pen.farm).size() == rows);
}

TEST_CASE("mishaps and reasons to come back stand in the row") {
  const RegisterRow r = row_of(all(evening().farm), 2);
  REQUIRE(r.mishaps.size() == 1);
  CHECK(r.mishaps[0].note == "corner lifted");
  std::vector<std::string> why;
  for (const ComeBackReason& c : r.come_back) why.emplace_back(name(c.why));
  CHECK(why == std::vector<std::string>{"short_seal", "mishap"});
}

TEST_CASE("a second setting has its own row, and the mishap stays with the one it followed") {
  Pen pen;
  set_up(pen);
  open_walk(pen);
  set(pen, 2, 1000);
  pen.write(Mishap{kWalk, colony(2), MishapKind::Dropped, ""});
  pen.wait(20s);
  pen.write(ColonyUncovered{kWalk, colony(2)});
  set(pen, 2, 1000);
  const auto rows = all(pen.farm);
  REQUIRE(rows.size() == 3);
  CHECK(rows[1].mishaps.size() == 1);
  CHECK(rows[1].outcome == Outcome::LeftOpen);
  CHECK(rows[2].mishaps.empty());
  CHECK(rows[2].outcome == Outcome::UnderWay);
}

TEST_CASE("another treatment stands on its own day, in the yard where the colony stood then") {
  Pen pen = evening();
  pen.write(ColonyMoved{colony(1), kOtherYard, {}});
  const auto rows = all(pen.farm);
  const RegisterRow& r = rows.front();
  CHECK(r.method == Method::FormicAcid);
  CHECK(iso_date(r.date) == "2026-07-01");
  CHECK_FALSE(r.at.has_value());
  CHECK(r.dose_text == "=2 strips");
  CHECK(r.withdrawal_days == 14);
  CHECK(r.yard_name == "Thistle Bank");
  CHECK(r.operator_name == "Wren Aldous");
}

TEST_CASE("the query keeps days from, to and one yard, both ends included") {
  const Farm farm = evening().farm;
  struct Row {
    std::string name;
    RegisterQuery query;
    std::size_t want;
  };
  const Date day = date(2026, 8, 14);
  const Row rows[] = {
      {"all", {}, 9},
      {"that day", {day, day, {}}, 8},
      {"up to the day before", {{}, date(2026, 8, 13), {}}, 1},
      {"from the day after", {date(2026, 8, 15), {}, {}}, 0},
      {"the yard", {{}, {}, kYard}, 9},
      {"another yard", {{}, {}, kOtherYard}, 0},
  };
  for (const Row& r : rows) {
    INFO(r.name);
    CHECK(register_rows(farm, r.query).size() == r.want);
  }
}

TEST_CASE("the register is complete from the day of the first entry") {
  CHECK_FALSE(complete_from(Farm{}).has_value());
  CHECK(iso_date(*complete_from(evening().farm)) == "2026-08-14");
}

TEST_CASE("a second setting of the day stands as over the label though each alone is not") {
  Pen pen;
  set_up(pen);
  open_walk(pen);
  for (int i = 0; i < 2; ++i) {
    set(pen, 2, 2000);
    pen.wait(90s);
    pen.write(ColonyUncovered{kWalk, colony(2)});
  }
  std::vector<bool> over;
  for (const RegisterRow& r : all(pen.farm))
    if (r.method == Method::Vapor) over.push_back(r.over_label);
  CHECK(over == std::vector<bool>{false, true});
}

}  // namespace register_test
