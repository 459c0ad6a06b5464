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
  CHECK(v->kill->low <= v->kill->kill);
  CHECK(v->kill->kill <= v->kill->high);
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
  // The counts are those of the model at a known kill, times a hundred bees for precision.
  Keeper k = four_rounds(1, 1);
  wash(k, 1, 12, 400, 10'000);
  const auto colony_12 = assumed_colony({}, Place{45'000'000, 0}, day(12)).colony;
  const auto start = mites::start_of(colony_12, {mites::LoadUnit::WashPer100, 4});
  const auto run = mites::run(colony_12, start, {{2, 7, 12, 17}, 0.6, 0}, 31);
  wash(k, 1, 43, static_cast<int>(std::lround(100 * run.wash_per_100.back())), 10'000);
  const auto v = course_verdict(k.farm, course(1), day(60));
  REQUIRE(v);
  REQUIRE(v->kill);
  CHECK(v->kill->kill == doctest::Approx(0.6).epsilon(0.01));
  const KillBand band = yard_kill(k.farm, yard(), day(60));
  CHECK(band.learned == v->kill->kill);
  CHECK(band.source.find("learned") == 0);
  CHECK_FALSE(yard_kill(k.farm, yard(), day(40)).learned);
}

TEST_CASE("kills are learned by yard and by the vaporizer that gave most rounds") {
  Keeper k = four_rounds(2, 2);
  for (int c = 1; c <= 2; ++c) wash(k, c, 12, 20), wash(k, c, 43, 4 + c);
  KillSurvey survey(k.farm, day(60));
  CHECK_FALSE(survey.of_yard(yard()));
  survey.go_on(k.farm, 2);  // the course and one colony
  REQUIRE(survey.of_yard(yard()));
  CHECK(survey.of_yard(yard())->colonies == 1);
  CHECK_FALSE(survey.whole());
  survey.go_on(k.farm, 100);
  CHECK(survey.whole());
  CHECK(survey.of_yard(yard())->colonies == 2);
  CHECK(survey.of_yard(yard())->low <= survey.of_yard(yard())->median);
  const auto by_vaporizer = survey.by_vaporizer();
  REQUIRE(by_vaporizer.size() == 1);
  CHECK(by_vaporizer.begin()->first == vaporizer(1));
}

TEST_CASE("the outcome of a yard is that of its last course that was counted") {
  Keeper k = four_rounds(2, 2);
  CHECK_FALSE(last_outcome(k.farm, yard(), day(60)));
  for (int c = 1; c <= 2; ++c) wash(k, c, 12, 20), wash(k, c, 43, 5);
  const auto outcome = last_outcome(k.farm, yard(), day(60));
  REQUIRE(outcome);
  const auto verdict = course_verdict(k.farm, course(1), day(60));
  CHECK(outcome->course == course(1));
  CHECK(outcome->kill->kill == verdict->kill->kill);
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

}  // namespace verdict_test
