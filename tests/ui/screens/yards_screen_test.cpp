#include <doctest/doctest.h>

#include "engine/rounds/due.h"
#include "tests/support/farm_states.h"

namespace yards_screen_test {

using test::Evening;

namespace {

const engine::YardId kBank = test::id<engine::YardId>(1);

void open_yard(Evening& e, const std::string& name) {
  test::season(e);
  e.tap("Yards");
  e.tap(name);
}

void type(Evening& e, const std::string& digits) {
  for (const char c : digits) e.tap(std::string(1, c));
  e.tap("OK");
}

}  // namespace

TEST_CASE("the list of yards tells what is due in each") {
  Evening e;
  test::season(e);
  e.tap("Yards");
  CHECK(e.sees("OVERDUE"));
  CHECK(e.sees("ROUND in 4 days"));
  CHECK(e.sees("6 colonies, last walk 14 Aug"));
}

TEST_CASE("a colony is added with the next name, one metre further east") {
  Evening e;
  open_yard(e, "Thistle Bank");
  e.tap("Add colony");
  e.tap("Brood boxes -");
  e.tap("Honey supers on");
  e.tap("Save");
  const auto all = engine::colonies_of(e.farm, kBank);
  REQUIRE(all.size() == 7);
  CHECK(all.back()->name == "A7");
  CHECK(all.back()->brood_boxes == 1);
  CHECK(all.back()->supers_on);
  CHECK(all.back()->spot == engine::Spot{100, -400});
  CHECK(e.refused.empty());
}

TEST_CASE("save and add next keeps the form open with the name after") {
  Evening e;
  open_yard(e, "Thistle Bank");
  e.tap("Add colony");
  e.tap("Save and add next");
  e.tap("Save and add next");
  e.tap("Back");
  CHECK(engine::colonies_of(e.farm, kBank).size() == 8);
  CHECK(engine::colonies_of(e.farm, kBank).back()->name == "A8");
}

TEST_CASE("a colony's kind, queen and leaks are a tap each, and off with another") {
  Evening e;
  open_yard(e, "Thistle Bank");
  for (const char* tap :
       {"A1", "Change", "Kind and leaks", "Nuc", "Queenless", "Cracks", "Upper entrance", "Cracks"})
    e.tap(tap);
  const auto at = std::find_if(e.farm.colonies.begin(), e.farm.colonies.end(),
                               [](const auto& c) { return c.second.name == "A1"; });
  REQUIRE(at != e.farm.colonies.end());
  CHECK(at->second.sort == engine::ColonySort::Nuc);
  CHECK(at->second.queenless);
  CHECK(at->second.leaks == std::vector{engine::Leak::UpperEntrance});
}

TEST_CASE("changing a colony writes only what changed") {
  Evening e;
  open_yard(e, "Thistle Bank");
  e.tap("A1");
  e.tap("Change");
  CHECK_FALSE(e.target("Save").enabled);
  e.tap("North +");
  e.tap("Save");
  const auto* changed = std::get_if<engine::ColonyChanged>(&e.farm.log.back()->event.body);
  REQUIRE(changed != nullptr);
  CHECK(changed->spot == engine::Spot{0, 100});
  CHECK_FALSE(changed->name);
  CHECK_FALSE(changed->brood_boxes);
}

TEST_CASE("rounds are planned from the first day, their number and the days between") {
  Evening e;
  open_yard(e, "Heron Weir");
  e.tap("Rounds");
  e.tap("Plan rounds");
  e.tap("First round +");
  e.tap("Number of rounds +");
  e.tap("Days between rounds +");
  e.tap("Save rounds");
  const auto* plan = std::get_if<engine::CoursePlanned>(&e.farm.log.back()->event.body);
  REQUIRE(plan != nullptr);
  std::vector<std::string> days;
  for (const engine::Date d : plan->rounds) days.push_back(engine::iso_date(d));
  const std::vector<std::string> want = {"2026-08-20", "2026-08-26", "2026-09-01", "2026-09-07"};
  CHECK(days == want);
  CHECK(e.sees("COMING"));
}

TEST_CASE("changing the dates of a course keeps the rounds that were walked") {
  Evening e;
  open_yard(e, "Thistle Bank");
  e.tap("Rounds");
  e.tap("Change dates");
  e.tap("Number of rounds -");
  e.tap("Save rounds");
  const auto& rounds = e.farm.courses.at(test::id<engine::CourseId>(1)).rounds;
  REQUIRE(rounds.size() == 3);
  CHECK(engine::iso_date(rounds[0]) == "2026-08-14");
  CHECK(engine::iso_date(rounds[2]) == "2026-08-24");
  CHECK(e.sees("4 OF 6"));  // A2 was passed over, A6 not reached
}

TEST_CASE("a course is ended only by holding") {
  Evening e;
  open_yard(e, "Thistle Bank");
  e.tap("Rounds");
  CHECK_THROWS(e.tap("End course"));
  e.hold("End course");
  CHECK(e.farm.courses.at(test::id<engine::CourseId>(1)).ended);
  CHECK(e.sees("No rounds are planned here."));
}

TEST_CASE("a mite count is typed on the keypad and shown in a hundred bees") {
  Evening e;
  open_yard(e, "Thistle Bank");
  e.tap("A3");
  e.tap("Count mites");
  CHECK_FALSE(e.target("Save count").enabled);
  e.tap("Mites");
  type(e, "12");
  CHECK(e.sees("4.0 per 100 bees (95 % limits"));  // 12 of 300, by hand
  e.tap("Save count");
  const engine::CountTaken& taken = e.farm.counts.back().taken;
  CHECK(taken.mites == 12);
  CHECK(taken.bees == 300);
  CHECK(taken.colony == e.colony(3));
  CHECK(engine::iso_date(taken.on) == "2026-08-19");
}

TEST_CASE("a sticky board is counted over its hours, on an earlier day") {
  Evening e;
  open_yard(e, "Thistle Bank");
  e.tap("A3");
  e.tap("Count mites");
  e.tap("sticky board");
  e.tap("Hours");
  e.tap("3 days");
  e.tap("Mites");
  type(e, "6");
  CHECK(e.sees("2.0 a day: about 84 mites"));  // 6 in 72 hours, by hand
  e.tap("Day -");
  e.tap("Save count");
  const engine::CountTaken& taken = e.farm.counts.back().taken;
  CHECK(taken.hours == 72);
  CHECK_FALSE(taken.bees);
  CHECK(engine::iso_date(taken.on) == "2026-08-18");
}

TEST_CASE("another treatment needs its product and keeps dose and withdrawal") {
  Evening e;
  open_yard(e, "Thistle Bank");
  e.tap("A3");
  e.tap("Other treatment");
  CHECK(e.sees("the product is missing"));
  e.tap("Method");
  e.tap("strip");
  e.tap("Product");
  e.tap("S"), e.tap("OK");
  e.tap("Withdrawal");
  type(e, "42");
  e.tap("Save treatment");
  const auto* given = std::get_if<engine::OtherTreatmentGiven>(&e.farm.log.back()->event.body);
  REQUIRE(given != nullptr);
  CHECK(given->method == engine::Method::Strip);
  CHECK(given->product == "S");
  CHECK(given->withdrawal_days == 42);
}

TEST_CASE("notes are phrases that add up") {
  Evening e;
  open_yard(e, "Thistle Bank");
  e.tap("A3");
  e.tap("Write a note");
  CHECK_FALSE(e.target("Save note").enabled);
  e.tap("eggs seen"), e.tap("strong"), e.tap("weak"), e.tap("weak");
  e.tap("Save note");
  CHECK(e.sees("eggs seen, strong"));
}

TEST_CASE("a colony is moved to another yard") {
  Evening e;
  open_yard(e, "Thistle Bank");
  e.tap("A3"), e.tap("Move to yard"), e.tap("Heron Weir");
  CHECK(e.farm.colonies.at(e.colony(3)).yard == test::id<engine::YardId>(5));
  CHECK(e.sees("Heron Weir"));
}

TEST_CASE("a colony is lost only with a reason and by holding") {
  Evening e;
  open_yard(e, "Thistle Bank");
  e.tap("A3"), e.tap("Colony lost");
  CHECK_FALSE(e.target("Mark as lost").enabled);
  e.tap("starved");
  e.hold("Mark as lost");
  CHECK(e.farm.colonies.at(e.colony(3)).lost);
  CHECK(e.farm.colonies.at(e.colony(3)).lost_why == "starved");
  CHECK(engine::colonies_of(e.farm, kBank).size() == 5);
}

TEST_CASE("a colony is taken off the come-back list with a reason") {
  Evening e;
  open_yard(e, "Thistle Bank");
  e.tap("A4"), e.tap("No visit needed"), e.tap("count was low"), e.tap("Take off the list");
  CHECK(engine::come_back_list(e.farm).size() == 2);
  CHECK_FALSE(e.has("No visit needed"));
}

TEST_CASE("the map puts the north up") {
  Evening e;
  open_yard(e, "Thistle Bank");
  e.tap("Show map");
  const ui::Target a1 = e.target("A1"), a5 = e.target("A5"), a6 = e.target("A6");
  CHECK(a5.rect.x > a1.rect.x);  // stands further east
  CHECK(a6.rect.y > a1.rect.y);  // stands further south
  e.tap("A6");
  CHECK(e.sees("not reached"));
}

TEST_CASE("a yard starts its walk with the course that is due") {
  Evening e;
  open_yard(e, "Thistle Bank");
  e.tap("Start walk");
  CHECK(e.views.screen == ui::ScreenName::Walk);
  CHECK(e.views.walk.opening.yard == kBank);
  CHECK(e.views.walk.opening.course == test::id<engine::CourseId>(1));
}

TEST_CASE("driving minutes are typed once for a pair of yards, and from home") {
  Evening e;
  test::season(e);
  e.tap("Yards"), e.tap("Thistle Bank"), e.tap("More"), e.tap("Driving");
  CHECK(e.sees("From home: not entered"));
  e.tap("From home");
  e.tap("2"), e.tap("5"), e.tap("OK");
  CHECK(e.sees("From home: 25 min"));
  while (!e.has("From Quarry Gate")) e.tap("NEXT");
  e.tap("From Quarry Gate"), e.tap("9"), e.tap("OK");
  CHECK(e.farm.drive_minutes.size() == 2);
  e.tap("Back"), e.tap("Back"), e.tap("Yards");
  e.tap("Quarry Gate"), e.tap("More"), e.tap("Driving");
  while (!e.sees("From Thistle Bank")) e.tap("NEXT");
  CHECK(e.sees("From Thistle Bank: 9 min"));
  CHECK(e.refused.empty());
}

}  // namespace yards_screen_test
