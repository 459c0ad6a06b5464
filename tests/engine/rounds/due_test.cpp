#include "engine/rounds/due.h"

#include "tests/support/evening.h"

namespace due_test {

using namespace evening;

namespace {

Date day(unsigned d) {
  return Date{std::chrono::year{2026}, std::chrono::month{8}, std::chrono::day{d}};
}

// Stamps of 14 August come from at(); a day later adds 86,400 s.
constexpr int kDay = 86'400;

void walk_all(Keeper& k, int n, int start) {
  WalkOpened o = opening(k, n);
  k.does(at(start), o);
  confirm_all(k, n);
  VaporizerSet s = set(1);
  s.walk = walk(n);
  k.does(at(start + 10), s);
  k.does(at(start + 100), ColonyUncovered{walk(n), colony(1)});
  k.does(at(start + 110), WalkClosed{walk(n)});
}

}  // namespace

TEST_CASE("a round is due on its day, overdue after, and done by a walk") {
  Keeper k = keeper_with(1, 1);
  k.does(at(0), CoursePlanned{id<CourseId>(1), yard(), {day(14), day(19), day(24)}});
  CHECK(due_on(k.farm, day(13)).rounds.empty());
  CHECK(due_on(k.farm, day(13)).coming.at(0).days_over == -1);
  CHECK(due_on(k.farm, day(14)).rounds.at(0).number == 1);
  CHECK(due_on(k.farm, day(17)).rounds.at(0).days_over == 3);
  walk_all(k, 1, 0);
  CHECK(due_on(k.farm, day(17)).rounds.empty());
  CHECK(due_on(k.farm, day(19)).rounds.at(0).number == 2);
  walk_all(k, 2, 4 * kDay);  // the 18th: a day early still counts for the 19th
  CHECK(due_on(k.farm, day(19)).rounds.empty());
  CHECK(due_on(k.farm, day(24)).rounds.at(0).number == 3);
}

TEST_CASE("a walk that treated nothing is no round") {
  Keeper k = keeper_with(1, 1);
  k.does(at(0), CoursePlanned{id<CourseId>(1), yard(), {day(14)}});
  k.does(at(0), opening(k));
  k.does(at(5), ColonyPassedOver{walk(), colony(1), PassReason::BeesFlying, {}});
  k.does(at(6), WalkClosed{walk()});
  CHECK(due_on(k.farm, day(14)).rounds.size() == 1);
  CHECK(due_on(k.farm, day(14)).come_backs.size() == 1);
}

TEST_CASE("a visit to a few come-back colonies is no round; one opened for the course is") {
  for (const bool for_the_course : {false, true}) {
    Keeper k = keeper_with(4, 1);
    k.does(at(0), CoursePlanned{id<CourseId>(1), yard(), {day(14), day(19)}});
    WalkOpened o = opening(k);
    o.colonies = {colony(1)};
    if (for_the_course) o.course = id<CourseId>(1);
    k.does(at(1), o);
    confirm_all(k);
    k.does(at(10), set(1));
    k.does(at(100), uncover(1));
    CHECK(due_on(k.farm, day(14)).rounds.size() == (for_the_course ? 0 : 1));
  }
}

TEST_CASE("a round walked at half the yard says so, until the others had their visit") {
  Keeper k = keeper_with(4, 1);
  k.does(at(0), CoursePlanned{id<CourseId>(1), yard(), {day(14), day(19)}});
  const auto first = [&] { return rounds_of(k.farm, k.farm.courses.at(id<CourseId>(1)))[0]; };
  WalkOpened o = opening(k);
  o.course = id<CourseId>(1);
  k.does(at(1), o);
  confirm_all(k);
  for (const int n : {1, 2}) {
    k.does(at(100 * n), set(n));
    k.does(at(100 * n + 90), uncover(n));
  }
  k.does(at(300), ColonyPassedOver{walk(), colony(4), PassReason::DeadOut, {}});
  k.does(at(400), WalkClosed{walk()});
  CHECK(first().walked);
  CHECK_FALSE(first().whole());
  CHECK(walked_words(first()) == "2 of 3 treated");  // a dead-out is no colony to treat
  o.walk = walk(2), o.colonies = {colony(3)}, o.course.reset();
  k.does(at(kDay), o);
  confirm_all(k, 2);
  VaporizerSet late = set(3);
  late.walk = walk(2);
  k.does(at(kDay + 10), late);
  CHECK(walked_words(first()) == "walked");
  CHECK(due_on(k.farm, day(15)).rounds.empty());
}

TEST_CASE("an ended course is no longer due") {
  Keeper k = keeper_with(1, 1);
  k.does(at(0), CoursePlanned{id<CourseId>(1), yard(), {day(14)}});
  k.does(at(1), CourseEnded{id<CourseId>(1), "counts are down"});
  CHECK(due_on(k.farm, day(20)).rounds.empty());
}

TEST_CASE("a yard is due for a count about monthly, or when it never had one") {
  // Common practice, no published source: 30 days.
  Keeper k = keeper_with(1, 1);
  CHECK_FALSE(due_on(k.farm, day(14)).counts.at(0).last);
  k.does(at(0), CountTaken{colony(1), day(1), CountMethod::AlcoholWash, 3, 300, {}, {}});
  CHECK(due_on(k.farm, day(30)).counts.empty());
  CHECK(due_on(k.farm, day(31)).counts.at(0).days_since == 30);
}

}  // namespace due_test
