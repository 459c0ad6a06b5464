#include "engine/season/verdict.h"

#include <algorithm>
#include <cmath>

#include "engine/mites/run.h"
#include "engine/season/kills.h"
#include "tests/support/evening.h"

namespace verdict_test {

using namespace evening;

namespace {

constexpr int kDay = 86'400;

Date day(int n) {  // of August, running on
  return date_after(Date{std::chrono::year{2026}, std::chrono::month{8}, std::chrono::day{1}},
                    n - 1);
}
CourseId course(int n) { return id<CourseId>(n); }

void wash(Keeper& k, int n, int on, int mites, int bees = 300) {
  k.does(at(0), CountTaken{colony(n), day(on), CountMethod::AlcoholWash, mites, bees, {}, {}});
}

// All colonies but the last `left_out`, as round `n` on a day of August.
void treat(Keeper& k, int n, int on, int colonies, CourseId which) {
  const int start = (on - 14) * kDay;
  WalkOpened o = opening(k, n);
  o.course = which;
  o.colonies.clear();
  for (int c = 1; c <= colonies; ++c) o.colonies.push_back(colony(c));
  k.does(at(start), o);
  confirm_all(k, n);
  for (int c = 1; c <= colonies; ++c) {
    VaporizerSet s = set(c);
    s.walk = walk(n);
    k.does(at(start + 100 * c), s);
    k.does(at(start + 100 * c + 90), ColonyUncovered{walk(n), colony(c)});
  }
  k.does(at(start + 10'000), WalkClosed{walk(n)});
}

// Four rounds from 14 August on every fifth day, to the 29th.
Keeper four_rounds(int colonies, int treated) {
  Keeper k = keeper_with(colonies, 1);
  k.does(at(0), YardChanged{.yard = yard(), .place = Place{45'000'000, 0}});
  k.does(at(0), CoursePlanned{course(1), yard(), {day(14), day(19), day(24), day(29)}});
  for (int n = 0; n < 4; ++n) treat(k, n + 1, 14 + 5 * n, treated, course(1));
  return k;
}

}  // namespace

TEST_CASE("without untreated colonies a fall in the counts is a change, not an efficacy") {
  Keeper k = four_rounds(2, 2);
  CHECK_FALSE(course_verdict(k.farm, course(1), day(60)));
  for (int c = 1; c <= 2; ++c) wash(k, c, 12, 20), wash(k, c, 43, 5);
  const auto v = course_verdict(k.farm, course(1), day(60));
  REQUIRE(v);
  CHECK(v->method == mites::EfficacyMethod::Reduction);
  CHECK(v->effect.percent == doctest::Approx(75));
  CHECK(v->sentence.find("a change, not an efficacy") != std::string::npos);
  CHECK(v->colonies.size() == 2);
  CHECK_FALSE(v->failed);
  REQUIRE(v->kill);
  CHECK(v->kill->low < v->kill->mid);
  CHECK(v->kill->mid < v->kill->high);
  CHECK(v->headline.result == CourseResult::Worked);
  CHECK(v->headline.line.find("75 % fewer mites (") == 0);
  CHECK(v->headline.line.find("). Below your threshold: it worked.") != std::string::npos);
  CHECK(v->headline.reasons.empty());
}

// Henderson and Tilton 1955, J Econ Entomol 48:157-161: 1 - (Ta/Tb)(Cb/Ca) for mites per bee; with
// Ta 9, Tb 45, Cb 40, Ca 60 at equal bees 86.6667 %.
TEST_CASE("with untreated colonies counted too it is an efficacy") {
  Keeper k = four_rounds(2, 1);
  wash(k, 1, 12, 45), wash(k, 1, 43, 9);
  wash(k, 2, 12, 40), wash(k, 2, 43, 60);
  const auto v = course_verdict(k.farm, course(1), day(60));
  REQUIRE(v);
  CHECK(v->method == mites::EfficacyMethod::HendersonTilton);
  CHECK(v->untreated == 1);
  CHECK(v->effect.percent == doctest::Approx(86.6667).epsilon(1e-5));
  CHECK(v->sentence.find("efficacy 87 %") != std::string::npos);
  CHECK(v->cautions[0].find("Only one untreated") != std::string::npos);
}

TEST_CASE("a colony whose treatment clearly failed is named, one in doubt is not") {
  Keeper k = four_rounds(3, 3);
  wash(k, 1, 12, 20), wash(k, 1, 43, 4);   // worked
  wash(k, 2, 12, 20), wash(k, 2, 43, 95);  // clearly not
  wash(k, 3, 12, 3), wash(k, 3, 43, 4);    // too few mites to tell
  const auto v = course_verdict(k.farm, course(1), day(60));
  REQUIRE(v);
  REQUIRE(v->colonies.size() == 3);
  CHECK_FALSE(v->colonies[0].failed);
  CHECK(v->colonies[1].failed);
  CHECK_FALSE(v->colonies[2].failed);
  CHECK(v->colonies[1].sentence.find("C2: ") == 0);
  CHECK(v->colonies[1].sentence.find("check dose, seal, drift") != std::string::npos);
}

TEST_CASE("a kill learned from washes that the model made is found again") {
  // The counts are those of the model at a known kill, in so many bees that the prior hardly
  // counts.
  Keeper k = four_rounds(1, 1);
  wash(k, 1, 12, 4000, 10'000);
  const auto colony_12 = assumed_colony({}, Place{45'000'000, 0}, day(12)).colony;
  const auto start = mites::start_of(colony_12, {mites::LoadUnit::WashPer100, 4});
  const auto run = mites::run(colony_12, start, {{2, 7, 12, 17}, 0.6, 0}, 31);
  wash(k, 1, 43, static_cast<int>(std::lround(1000 * run.wash_per_100.back())), 10'000);
  const auto v = course_verdict(k.farm, course(1), day(60));
  REQUIRE(v);
  REQUIRE(v->kill);
  CHECK(v->kill->mid == doctest::Approx(0.6).epsilon(0.02));
  const KillBand band = yard_kill(k.farm, yard(), day(60));
  CHECK(band.mid == doctest::Approx(v->kill->mid));
  CHECK(band.source == "learned from 1 course of yours");
  CHECK(band.headline() == band.low);
  CHECK(yard_kill(k.farm, yard(), day(40)).courses == 0);
}

TEST_CASE("one course speaks for the outfit, two for the yard and for the vaporizer") {
  Keeper k = four_rounds(2, 2);
  for (int c = 1; c <= 2; ++c) wash(k, c, 12, 20), wash(k, c, 43, 4 + c);
  const auto survey = [&] {
    KillSurvey s(k.farm, day(120));
    CHECK_FALSE(s.of_outfit());
    s.go_on(k.farm, 100);
    CHECK(s.whole());
    return s;
  };
  REQUIRE(survey().of_outfit());
  CHECK(survey().of_outfit()->courses == 1);
  CHECK_FALSE(survey().of_yard(yard()));
  CHECK(survey().by_vaporizer().empty());
  k.does(at(1), CoursePlanned{course(2), yard(), {day(46), day(51), day(56)}});
  for (int n = 0; n < 3; ++n) treat(k, n + 5, 46 + 5 * n, 2, course(2));
  for (int c = 1; c <= 2; ++c) wash(k, c, 71, 2);
  const KillSurvey two = survey();
  REQUIRE(two.of_yard(yard()));
  CHECK(two.of_yard(yard())->courses == 2);
  REQUIRE(two.by_vaporizer().size() == 1);
  CHECK(two.by_vaporizer().begin()->first == vaporizer(1));
  CHECK(two.band(yard(), 1).source == "learned from 2 courses in this yard");
  CHECK(two.band(yard(), 2).low > two.band(yard(), 1).low);  // it carries over to another dose
}

TEST_CASE("what a colony got beside the vapor keeps its washes from teaching a kill") {
  Keeper k = four_rounds(1, 1);
  wash(k, 1, 12, 20), wash(k, 1, 43, 5);
  CHECK(yard_kill(k.farm, yard(), day(60)).courses == 1);
  k.does(at(1), OtherTreatmentGiven{.colony = colony(1),
                                    .on = day(30),
                                    .method = Method::FormicAcid,
                                    .product = "Formic pads"});
  CHECK(yard_kill(k.farm, yard(), day(60)).courses == 0);
}

TEST_CASE("the outcome of a yard is that of its last course that was counted") {
  Keeper k = four_rounds(2, 2);
  CHECK_FALSE(last_outcome(k.farm, yard(), day(60)));
  for (int c = 1; c <= 2; ++c) wash(k, c, 12, 20), wash(k, c, 43, 5);
  const auto outcome = last_outcome(k.farm, yard(), day(60));
  REQUIRE(outcome);
  const auto verdict = course_verdict(k.farm, course(1), day(60));
  CHECK(outcome->course == course(1));
  CHECK(outcome->failed == verdict->failed);
  k.does(at(1), CoursePlanned{course(2), yard(), {day(44), day(49), day(54)}});
  for (int n = 0; n < 3; ++n) treat(k, n + 5, 44 + 5 * n, 2, course(2));
  CHECK(last_outcome(k.farm, yard(), day(60))->course == course(1));  // the other is not counted
}

TEST_CASE("a count too near the rounds, or too far, does not judge them") {
  for (const int after : {33, 65}) {
    Keeper k = four_rounds(1, 1);
    wash(k, 1, 12, 20), wash(k, 1, after, 4);
    CHECK_FALSE(course_verdict(k.farm, course(1), day(90)));
  }
  Keeper k = four_rounds(1, 1);
  wash(k, 1, 12, 20), wash(k, 1, 36, 4), wash(k, 1, 44, 6);
  CHECK(course_verdict(k.farm, course(1), day(40))->cautions[1].find("too early") !=
        std::string::npos);
  CHECK(course_verdict(k.farm, course(1), day(90))->colonies[0].after.last == day(44));
}

TEST_CASE("a yard where two courses in a row failed is told to look for the cause") {
  Keeper k = four_rounds(2, 2);
  for (int c = 1; c <= 2; ++c) wash(k, c, 12, 40), wash(k, c, 43, 190);
  CHECK_FALSE(failing_yard(k.farm, yard(), day(60)));
  k.does(at(1), CoursePlanned{course(2), yard(), {day(44), day(49), day(54)}});
  for (int n = 0; n < 3; ++n) treat(k, n + 5, 44 + 5 * n, 2, course(2));
  for (int c = 1; c <= 2; ++c) wash(k, c, 68, 900, 300);
  const auto failing = failing_yard(k.farm, yard(), day(90));
  REQUIRE(failing);
  CHECK(failing->in_a_row == 2);
  CHECK(failing->sentence ==
        "Long Acre: the last 2 courses failed: check dose, seal, drift from other colonies, "
        "resistance.");
}

TEST_CASE("the verdict is a line first: no clear change, not enough, or it did not work") {
  struct Row {
    std::string name;
    int before, after;
    CourseResult result;
    std::string line;
  };
  const Row rows[] = {
      {"few mites either way", 3, 2, CourseResult::NoClearChange,
       "No clear change: count again in a week. 33 % fewer mites ("},
      {"fewer, not few", 120, 40, CourseResult::NotEnough, "67 % fewer mites ("},
      {"many more", 20, 95, CourseResult::Failed, "It did not work: 375 % more mites ("},
  };
  for (const Row& row : rows) {
    CAPTURE(row.name);
    Keeper k = four_rounds(1, 1);
    wash(k, 1, 12, row.before), wash(k, 1, 43, row.after);
    const auto v = course_verdict(k.farm, course(1), day(45));
    REQUIRE(v);
    CAPTURE(v->headline.line);
    CHECK(v->headline.result == row.result);
    CHECK(v->headline.line.find(row.line) == 0);
    CHECK(v->headline.reasons.back().find("Check leaks and the seal") == 0);
    CHECK((v->headline.count_again == std::optional(day(50))) ==
          (row.result == CourseResult::NoClearChange));
  }
}

TEST_CASE("a failure names what the log has against the course before what is only possible") {
  Keeper k = keeper_with(1, 1);
  k.does(at(0), YardChanged{.yard = yard(), .place = Place{45'000'000, 0}});
  k.does(at(0), CoursePlanned{course(1), yard(), {day(14), day(19), day(24), day(29)}});
  for (int n = 0; n < 2; ++n) treat(k, n + 1, 14 + 5 * n, 1, course(1));
  wash(k, 1, 12, 20), wash(k, 1, 33, 95);
  const auto v = course_verdict(k.farm, course(1), day(45));
  REQUIRE(v);
  CHECK(v->headline.line.find("Most likely: 2 of 4 rounds were walked.") != std::string::npos);
  REQUIRE(v->headline.reasons.size() >= 3);
  CHECK(v->headline.reasons[1] == "2 rounds with brood: most mites were under caps.");
}

TEST_CASE("growth beyond what a colony can breed points to the neighbours") {
  Keeper k = four_rounds(2, 2);
  for (int c = 1; c <= 2; ++c) wash(k, c, 12, 20), wash(k, c, 43, 3);
  CHECK_FALSE(mites_coming_in(k.farm, yard(), day(60)));  // one count after the rounds
  SUBCASE("as much as the model holds is the colony's own") {
    for (int c = 1; c <= 2; ++c) wash(k, c, 57, 5);
    CHECK_FALSE(mites_coming_in(k.farm, yard(), day(60)));
  }
  SUBCASE("ten times as many within two weeks is not") {
    for (int c = 1; c <= 2; ++c) wash(k, c, 57, 36);
    const auto in = mites_coming_in(k.farm, yard(), day(60));
    REQUIRE(in);
    CHECK(in->least_ratio > in->bred_ratio);
    CHECK(in->bred_ratio < 1.7);
    CHECK(in->count_again == day(64));
    CHECK(in->line.find("more mites than these colonies can have bred") != std::string::npos);
    CHECK(in->line.find("look at the neighbours. Count again on 2026-10-03.") != std::string::npos);
  }
}

}  // namespace verdict_test
