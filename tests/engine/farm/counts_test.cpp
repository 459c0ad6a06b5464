#include "engine/season/counts.h"

#include "tests/support/evening.h"

namespace counts_test {

using namespace evening;

namespace {

using mites::Decision;

Date day(int n) {
  return date_after(Date{std::chrono::year{2026}, std::chrono::month{8}, std::chrono::day{1}},
                    n - 1);
}

void wash(Keeper& k, int n, int on, int mites, int bees = 300) {
  k.does(at(0), CountTaken{colony(n), day(on), CountMethod::AlcoholWash, mites, bees, {}, {}});
}

}  // namespace

// The table that follows from exact binomial tails at alpha = beta = 0.10, 300 bees and 3 per 100:
// 0-4 watch, 5-13 recount, 14 and more treat.
TEST_CASE("one wash of 300 bees decides only when it is far from the threshold") {
  struct Row {
    std::string name;
    int mites;
    Decision want;
    std::string starts;
  };
  const Row rows[] = {{"none", 0, Decision::Watch, "Watch: 0 mites on 300 bees, 0.0 per 100"},
                      {"four", 4, Decision::Watch, "Watch: 4 mites"},
                      {"five", 5, Decision::Recount, "Not decided: 5 mites"},
                      {"thirteen", 13, Decision::Recount, "Not decided: 13 mites"},
                      {"fourteen", 14, Decision::Treat, "Treat: 14 mites on 300 bees, 4.7 per"}};
  for (const Row& r : rows) {
    INFO(r.name);
    Keeper k = keeper_with(1, 1);
    wash(k, 1, 10, r.mites);
    const auto got = colony_count(k.farm, colony(1), day(12));
    REQUIRE(got);
    CHECK(got->decision == r.want);
    CHECK(got->sentence.starts_with(r.starts));
    CHECK(got->sentence.find("95 % limits") != std::string::npos);
    CHECK(got->more_washes.has_value() == (r.want == Decision::Recount));
  }
}

TEST_CASE("washes of one spell are counted together, after two the figure decides") {
  Keeper k = keeper_with(1, 1);
  wash(k, 1, 1, 30);  // an older spell
  wash(k, 1, 10, 10);
  wash(k, 1, 17, 9);
  const auto got = colony_count(k.farm, colony(1), day(20));
  REQUIRE(got);
  CHECK(got->spell.washes.size() == 2);
  CHECK(got->spell.pooled().mites == 19);
  CHECK(got->decision == Decision::Treat);
  CHECK(got->by_point_estimate);
  CHECK(colony_count(k.farm, colony(1), day(5))->spell.pooled().mites == 30);
  wash(k, 1, 18, 1);  // eight days after the spell began: a new one
  CHECK(colony_count(k.farm, colony(1), day(20))->spell.pooled().mites == 1);
}

TEST_CASE("a treatment between two washes parts them") {
  Keeper k = keeper_with(1, 1);
  wash(k, 1, 10, 10);
  OtherTreatmentGiven given;
  given.colony = colony(1);
  given.on = day(11);
  given.product = "strips";
  k.does(at(0), given);
  wash(k, 1, 14, 2);
  const auto got = colony_count(k.farm, colony(1), day(14));
  CHECK(got->spell.washes.size() == 1);
  REQUIRE(got->cautions.size() == 1);
  CHECK(got->cautions[0].find("within 4 days of a treatment") != std::string::npos);
}

TEST_CASE("a count with the queen caged says that it shows too many") {
  Keeper k = keeper_with(1, 1);
  k.does(at(0), BroodNoted{{colony(1)}, day(1), BroodFact::QueenCaged, ""});
  wash(k, 1, 26, 10);
  const auto got = colony_count(k.farm, colony(1), day(26));
  REQUIRE(got->cautions.size() == 1);
  CHECK(got->cautions[0].find("Without brood") != std::string::npos);
}

TEST_CASE("the season's threshold is the keeper's own where there is one") {
  Keeper k = keeper_with(1, 1);
  wash(k, 1, 10, 10);
  CHECK(colony_count(k.farm, colony(1), day(10))->threshold.per_100 == 3.0);
  k.does(at(1), SetupChanged{.thresholds = Thresholds{10, 10, 10, 10}});
  CHECK(colony_count(k.farm, colony(1), day(10))->decision == Decision::Treat);
}

TEST_CASE("a yard says how many colonies still to wash, and names the worst") {
  Keeper k = keeper_with(12, 1);
  const int mites[] = {9, 10, 11, 12, 11};
  for (int n = 1; n <= 5; ++n) wash(k, n, 10, mites[n - 1]);
  const auto got = yard_count(k.farm, yard(), day(14));
  REQUIRE(got);
  CHECK(got->colonies.size() == 5);
  CHECK(got->in_yard == 12);
  CHECK(got->worst == colony(4));
  CHECK(got->sentence.starts_with("Not decided: 5 of 12 colonies counted, 3.5 per 100 bees"));
  REQUIRE(got->estimate.more_colonies_if_mean_holds);
  CHECK(got->advice[0].starts_with("To decide, wash 300 bees in each of "));
  CHECK(got->advice.back().starts_with("Most mites: C4, 4.0 per 100"));
}

TEST_CASE("one colony of six does not decide for the yard, all of them do") {
  Keeper k = keeper_with(6, 1);
  wash(k, 1, 10, 9);
  const auto one = yard_count(k.farm, yard(), day(14));
  CHECK(one->decision == Decision::Recount);
  CHECK(one->advice[0].starts_with("Count 5 colonies more"));
  for (int n = 2; n <= 6; ++n) wash(k, n, 10, 9 + n % 2);
  const auto all = yard_count(k.farm, yard(), day(14));
  CHECK(all->by_point_estimate);
  CHECK(all->decision == Decision::Treat);
  CHECK(all->advice[0].starts_with("Not even the whole yard"));
}

TEST_CASE("a yard far above the threshold is to be treated, one without mites to be watched") {
  for (const bool many : {true, false}) {
    Keeper k = keeper_with(8, 1);
    for (int n = 1; n <= 8; ++n) wash(k, n, 10, many ? 24 + n % 3 : n % 2);
    const auto got = yard_count(k.farm, yard(), day(14));
    REQUIRE(got);
    CHECK(got->decision == (many ? Decision::Treat : Decision::Watch));
  }
  CHECK_FALSE(yard_count(keeper_with(2, 1).farm, yard(), day(14)));
}

TEST_CASE("a yard with more mites is more urgent, within bounds") {
  Keeper k = keeper_with(1, 1);
  CHECK(urgency_of(yard_count(k.farm, yard(), day(14))) == 1);
  wash(k, 1, 10, 18);  // 6 per 100 at a threshold of 3
  CHECK(urgency_of(yard_count(k.farm, yard(), day(14))) == doctest::Approx(2));
  wash(k, 1, 25, 150);
  CHECK(urgency_of(yard_count(k.farm, yard(), day(25))) == 5);
}

TEST_CASE("colonies counted long before do not belong to the yard's count") {
  Keeper k = keeper_with(2, 1);
  wash(k, 1, 1, 30);
  wash(k, 2, 16, 0);
  CHECK(yard_count(k.farm, yard(), day(20))->colonies.size() == 1);
}

}  // namespace counts_test
