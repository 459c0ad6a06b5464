#include "engine/calendar/propose.h"

#include "engine/rounds/due.h"
#include "tests/support/evening.h"

namespace propose_test {

using namespace evening;

namespace {

Date day(int n) {
  return date_after(Date{std::chrono::year{2026}, std::chrono::month{8}, std::chrono::day{1}},
                    n - 1);
}
YardId yard_no(int n) { return id<YardId>(n); }
CourseId course(int n) { return id<CourseId>(n); }
constexpr int kDay = 86'400;

Keeper two_yards() {
  Keeper k = keeper_with(2, 1);
  k.does(at(0), YardAdded{yard_no(2), "Mill Lane", {}, {}, {}});
  k.does(at(0), ColonyAdded{colony(11), yard_no(2), "M1", 1});
  return k;
}

Surrounding on(int n) { return {day(n), nullptr, {}}; }

CourseWish wish(int n, int rounds = 4) {
  CourseWish w;
  w.yard = yard_no(n);
  w.course = course(n);
  w.rounds = rounds;
  w.earliest = day(14);
  return w;
}

void treat(Keeper& k, int n, int start, ColonyId which) {
  WalkOpened o = opening(k, n);
  k.does(at(start), o);
  confirm_all(k, n);
  VaporizerSet s = set(1);
  s.walk = walk(n);
  s.colony = which;
  k.does(at(start + 10), s);
  k.does(at(start + 100), ColonyUncovered{walk(n), which});
  k.does(at(start + 110), WalkClosed{walk(n)});
}

}  // namespace

TEST_CASE("new courses are proposed for several yards and taken in one act") {
  Keeper k = two_yards();
  const Proposal p = propose_courses(k.farm, {wish(1), wish(2)}, on(14));
  REQUIRE(p.courses.size() == 2);
  CHECK(p.courses[0].rounds.size() == 4);
  CHECK(p.lines[0].starts_with("Long Acre: 2026-08-14, "));
  k.does(at(0), CoursesPlanned{p.courses, "counts"});
  CHECK(due_on(k.farm, day(14)).rounds.size() == 2);
}

TEST_CASE("the label bounds rounds and spacing") {
  Keeper k = two_yards();
  MethodRules vapor;
  vapor.most_rounds = 3;
  vapor.min_interval_days = 9;
  Surrounding around = on(14);
  around.vapor = &vapor;
  const Proposal p = propose_courses(k.farm, {wish(1)}, around);
  REQUIRE(p.courses.size() == 1);
  REQUIRE(p.courses[0].rounds.size() == 3);
  CHECK(days_apart(p.courses[0].rounds[0], p.courses[0].rounds[1]) == 9);
}

TEST_CASE("an evening lost to rain moves its rounds and what follows; others stay") {
  Keeper k = two_yards();
  k.does(at(0), CoursesPlanned{{{course(1), yard_no(1), {day(14), day(19), day(24)}},
                                {course(2), yard_no(2), {day(16), day(21)}}},
                               ""});
  const Proposal p = propose_after_loss(k.farm, day(14), on(14));
  REQUIRE(p.courses.size() == 1);
  CHECK(p.courses[0].course == course(1));
  CHECK(p.courses[0].rounds.front() > day(14));
  CHECK(p.courses[0].rounds.size() == 3);
  k.does(at(9), EveningLost{day(14), LossWhy::Rain, "", p.courses});
  CHECK(due_on(k.farm, day(14)).rounds.empty());
  CHECK(propose_after_loss(k.farm, day(14), on(14)).empty());
}

TEST_CASE("a missed round moves the rest, those walked stay") {
  Keeper k = two_yards();
  k.does(at(0), CoursePlanned{course(1), yard_no(1), {day(14), day(19), day(24)}});
  treat(k, 1, 0, colony(1));
  CHECK(propose_for_missed(k.farm, on(19)).empty());
  const Proposal p = propose_for_missed(k.farm, on(22));
  REQUIRE(p.courses.size() == 1);
  CHECK(p.courses[0].rounds == std::vector{day(14), day(22), p.courses[0].rounds[2]});
  CHECK(days_apart(day(22), p.courses[0].rounds[2]) >= kGapLeast);
  // The gap from the round walked on the 14th is longer than was asked for, and said.
  CHECK(p.lines.size() == 2);
}

TEST_CASE("a come-back colony joins the next round, or gets a visit of its own") {
  Keeper k = two_yards();
  WalkOpened o = opening(k);
  k.does(at(0), o);
  k.does(at(5), ColonyPassedOver{walk(), colony(1), PassReason::BeesFlying, {}});
  k.does(at(6), ColonyPassedOver{walk(), colony(2), PassReason::Aggressive, {}});
  k.does(at(7), WalkClosed{walk()});
  const auto alone = visits(k.farm, on(15));
  REQUIRE(alone.size() == 1);
  CHECK(alone[0].on == day(15));
  CHECK(alone[0].come_backs.size() == 2);
  CHECK_FALSE(alone[0].course);
  k.does(at(8), CoursePlanned{course(1), yard_no(1), {day(18), day(23)}});
  const auto joined = visits(k.farm, on(15));
  REQUIRE(joined.size() == 1);
  CHECK(joined[0].on == day(18));
  CHECK(joined[0].come_backs.size() == 2);
  CHECK(visits(k.farm, on(9)).size() == 2);  // nine days are too long to wait
}

TEST_CASE("a count is due two weeks after the last round, until one was taken") {
  Keeper k = two_yards();
  k.does(at(0), CoursePlanned{course(1), yard_no(1), {day(14)}});
  CHECK(due_on(k.farm, day(14)).post_counts.empty());
  treat(k, 1, 0, colony(1));
  CHECK(due_on(k.farm, day(20)).post_counts.at(0).days_over == -8);
  CHECK(due_on(k.farm, day(28)).post_counts.at(0).days_over == 0);
  CHECK(due_on(k.farm, day(28)).post_counts.at(0).planned == day(28));
  k.does(at(kDay), CountTaken{colony(1), day(18), CountMethod::AlcoholWash, 3, 300, {}, {}});
  CHECK(due_on(k.farm, day(28)).post_counts.size() == 1);  // four days on is too early
  k.does(at(kDay), CountTaken{colony(1), day(25), CountMethod::AlcoholWash, 3, 300, {}, {}});
  CHECK(due_on(k.farm, day(28)).post_counts.empty());
}

TEST_CASE("a window that closes and the gaps asked hold when a course is planned anew") {
  Keeper k = keeper_with(1, 1);
  CourseWish w = wish(1, 3);
  w.latest = day(26), w.gap_least = 5, w.gap_most = 6, w.urgency = 2;
  const Proposal p = propose_courses(k.farm, {w}, on(14));
  REQUIRE(p.courses.size() == 1);
  CHECK(p.courses[0].rounds == std::vector{day(14), day(19), day(24)});
  CHECK(p.courses[0].asked == RoundsAsked{day(26), 5, 6, 200});
  k.does(at(0), CoursesPlanned{p.courses, "brood-free until the 26th"});
  // Lost on the 14th: without the window it would go on until the 27th, in steps of 4 to 7 days.
  const Proposal moved = propose_after_loss(k.farm, day(14), on(14));
  REQUIRE(moved.courses.size() == 1);
  CHECK(moved.courses[0].rounds == std::vector{day(15), day(20), day(25)});
}

TEST_CASE("what a walk that ended early did not reach is for the next free evening") {
  for (const bool early : {false, true}) {
    INFO(early);
    Keeper k = keeper_with(2, 1);
    k.does(at(0), CoursesPlanned{{{course(1), yard_no(1), {day(14), day(18)}, {}}}, ""});
    WalkOpened o = opening(k, 1);
    o.course = course(1);
    k.does(at(0), o);
    confirm_all(k, 1);
    k.does(at(10), set(1));
    k.does(at(100), uncover(1));
    k.does(at(110), WalkClosed{walk(1), early ? std::optional(LossWhy::Rain) : std::nullopt});
    const std::vector<Visit> list = visits(k.farm, on(14));
    REQUIRE(list.size() == (early ? 2U : 1U));
    CHECK(list[0].on == (early ? day(15) : day(18)));
    // The one that was treated badly may wait for the round.
    CHECK(list[0].come_backs.front() == (early ? colony(2) : colony(1)));
    CHECK(list.back().come_backs.back() == (early ? colony(1) : colony(2)));
  }
}

}  // namespace propose_test
