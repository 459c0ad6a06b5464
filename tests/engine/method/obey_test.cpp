#include "engine/method/obey.h"

#include "engine/calendar/propose.h"
#include "engine/register/register.h"
#include "tests/support/evening.h"

namespace obey_test {

using namespace evening;

namespace {

Date day(unsigned d, unsigned month = 8) {
  return Date{std::chrono::year{2026}, std::chrono::month{month}, std::chrono::day{d}};
}

LabelRules once_a_year() {
  LabelRules r = rules();
  r.limits = LabelLimits{};
  r.limits->uses_per_year = 1;
  r.limits->brood = BroodNeed::LittleOrNone;
  return r;
}

// One colony, treated on the evening of 14 August under that label.
Keeper treated(const LabelRules& label) {
  Keeper k = keeper_with(1, 1);
  k.does(at(0), SetupChanged{.rules = label});
  WalkOpened o = opening(k);
  o.rules = label;
  k.does(at(0), o);
  confirm_all(k);
  k.does(at(10), set(1));
  k.does(at(100), uncover(1));
  k.does(at(200), WalkClosed{walk()});
  return k;
}

void nothing_in_the_cells(Keeper& k, Date on) {
  k.does(at(0), BroodNoted{{colony(1)}, on, BroodFact::NoBrood, ""});
}

CourseWish wish(int rounds, Date from) { return {yard(), id<CourseId>(7), rounds, from}; }

}  // namespace

TEST_CASE(
    "a second treatment under a label that allows one a year is not proposed, but can be held") {
  Keeper k = treated(once_a_year());
  nothing_in_the_cells(k, day(20));
  const Proposal none = propose_courses(k.farm, {wish(4, day(20))}, {day(15), nullptr, {}});
  CHECK(none.empty());
  REQUIRE(none.refused.size() == 1);
  CHECK(none.refused[0] == "Long Acre: no round: the label's treatments of 2026 are given.");
  Surrounding held{day(15), nullptr, {}};
  held.insist = true;
  const Proposal all = propose_courses(k.farm, {wish(4, day(20))}, held);
  REQUIRE(all.courses.size() == 1);
  CHECK(all.courses[0].rounds.size() == 4);
  CHECK(all.against.size() == 1);
}

TEST_CASE("of four rounds a label for one a year leaves one") {
  Keeper k = keeper_with(1, 1);
  k.does(at(0), SetupChanged{.rules = once_a_year()});
  nothing_in_the_cells(k, day(19));
  const Proposal p = propose_courses(k.farm, {wish(4, day(20))}, {day(15), nullptr, {}});
  REQUIRE(p.courses.size() == 1);
  CHECK(p.courses[0].rounds.size() == 1);
  CHECK(p.refused.size() == 1);
}

TEST_CASE("a round where brood was seen is not proposed under a label for none or the least") {
  Keeper k = keeper_with(1, 1);
  k.does(at(0), SetupChanged{.rules = once_a_year()});
  k.does(at(0), BroodNoted{{colony(1)}, day(12), BroodFact::BroodSeen, ""});
  CHECK(propose_courses(k.farm, {wish(1, day(15))}, {day(14), nullptr, {}}).empty());
  CHECK(against_label(k.farm, {colony(1), day(15), false}, once_a_year()).size() == 1);
}

TEST_CASE("brood that nobody noted is asked about before a label that minds it plans a round") {
  for (const BroodNeed need : {BroodNeed::LittleOrNone, BroodNeed::None}) {
    Keeper k = keeper_with(1, 1);
    LabelRules label = rules();
    label.limits = LabelLimits{.brood = need};
    k.does(at(0), SetupChanged{.rules = label});
    Surrounding around{day(15), nullptr, {}};
    const Proposal asked = propose_courses(k.farm, {wish(4, day(20))}, around);
    CHECK(asked.empty());
    REQUIRE(asked.refused.size() == 1);
    CHECK(asked.refused[0].starts_with(
        "Long Acre: CHECK YOUR LABEL: brood not known in 1 of 1, it wants none"));
    // Whoever holds to it gets the rounds, and what is not known goes with them.
    around.insist = true;
    const Proposal held = propose_courses(k.farm, {wish(4, day(20))}, around);
    REQUIRE(held.courses.size() == 1);
    CHECK(held.unanswered == asked.refused);
    CHECK(held.against.empty());
    around.insist = false;
    nothing_in_the_cells(k, day(20));
    const Proposal known = propose_courses(k.farm, {wish(4, day(20))}, around);
    CHECK(known.courses.size() == 1);
    CHECK(known.refused.empty());
    CHECK(known.unanswered.empty());
  }
}

TEST_CASE("a label for any brood, or one of which it is not known, asks nothing about brood") {
  Keeper k = keeper_with(1, 1);
  LabelRules label = rules();
  CHECK(brood_question(k.farm, {colony(1)}, label, day(15)).empty());
  label.limits = LabelLimits{.brood = BroodNeed::Any};
  CHECK(brood_question(k.farm, {colony(1)}, label, day(15)).empty());
  label.limits->brood = BroodNeed::None;
  CHECK(brood_not_known(k.farm, {colony(1)}, label, day(15)).size() == 1);
}

TEST_CASE("a round sooner than the label's least days is against it, one on the day is not") {
  LabelRules label = rules();
  label.limits = LabelLimits{};
  label.limits->min_interval_days = 7;
  const Keeper k = treated(label);
  CHECK(against_label(k.farm, {colony(1), day(20), false}, label).size() == 1);
  CHECK(against_label(k.farm, {colony(1), day(21), false}, label).empty());
  // The same evening is the same treatment.
  CHECK(against_label(k.farm, {colony(1), day(14), false}, label).empty());
  CHECK(label_gap(k.farm) == 7);
  CHECK(course_against_label(k.farm, yard(), {day(21), day(26)}).size() == 1);
  CHECK(course_against_label(k.farm, yard(), {day(21), day(28)}).empty());
}

TEST_CASE("what is not known of a label forbids nothing by itself") {
  LabelRules label = rules();
  label.limits = LabelLimits{};
  const Keeper k = treated(label);
  CHECK(against_label(k.farm, {colony(1), day(15), false}, label).empty());
  CHECK_FALSE(rounds_left(k.farm, yard(), day(15)));
}

TEST_CASE("the register says which treatment was against the label, and how") {
  Keeper k = treated(once_a_year());
  WalkOpened o = opening(k, 2);
  o.rules = once_a_year();
  k.does(at(86'400 * 9), o);
  confirm_all(k, 2);
  VaporizerSet again = set(1);
  again.walk = walk(2);
  k.does(at(86'400 * 9 + 10), again);
  const auto rows = register_rows(k.farm, RegisterQuery{});
  REQUIRE(rows.size() == 2);
  CHECK(rows[0].against_label.empty());
  REQUIRE(rows[1].against_label.size() == 1);
  CHECK(rows[1].is_against_label());
}

}  // namespace obey_test
