#include <doctest/doctest.h>
#include <fmt/format.h>

#include "tests/support/farm_states.h"

namespace courses_screen_test {

using test::Evening;

namespace {

const engine::Body& last(const Evening& e) { return e.farm.log.back()->event.body; }

engine::Date day(int year, unsigned month, unsigned d) {
  return std::chrono::year{year} / std::chrono::month{month} / std::chrono::day{d};
}

// Its two colonies were counted today.
void expect_at_heron_weir(Evening& e) {
  test::season(e);
  for (int i = 0; i < 2; ++i)
    e.write(engine::CountTaken{test::id<engine::ColonyId>(501 + i), e.look().today(),
                               engine::CountMethod::AlcoholWash, 14, 300});
  for (const char* label : {"Courses", "Heron Weir", "What to expect"}) e.tap(label);
}

}  // namespace

TEST_CASE("the rounds of two yards are planned in one act, on the evenings of both") {
  Evening e;
  test::season(e);
  for (const char* label : {"Courses", "Plan rounds", "Heron Weir", "Miller"}) e.tap(label);
  e.tap("Take this plan");
  REQUIRE(e.refused.empty());
  const auto* planned = std::get_if<engine::CoursesPlanned>(&last(e));
  REQUIRE(planned != nullptr);
  REQUIRE(planned->courses.size() == 2);
  CHECK(planned->courses[0].course != planned->courses[1].course);
  for (const engine::CourseDates& c : planned->courses) CHECK(c.rounds.size() == 4);
  CHECK(e.sees("ROUND 1 OF 4"));
}

TEST_CASE("the label's most bounds the rounds, whatever the stepper says") {
  Evening e;
  test::season(e);
  for (const char* label : {"Courses", "Plan rounds", "Heron Weir"}) e.tap(label);
  for (int i = 0; i < 4; ++i) e.tap("Rounds +");
  CHECK(e.sees("8"));
  e.tap("Take this plan");
  const auto* planned = std::get_if<engine::CoursesPlanned>(&last(e));
  REQUIRE(planned != nullptr);
  CHECK(planned->courses[0].rounds.size() == 6);
}

TEST_CASE("a label that minds brood asks for it before it plans; the answer plans") {
  Evening e;
  test::season(e);
  engine::LabelRules label = *e.farm.setup.rules;
  label.limits = engine::LabelLimits{.brood = engine::BroodNeed::LittleOrNone};
  e.write(engine::SetupChanged{.rules = label});
  for (const char* tapped : {"Courses", "Plan rounds", "Heron Weir"}) e.tap(tapped);
  CHECK(e.sees("CHECK YOUR LABEL"));
  CHECK_FALSE(e.target("Take this plan").enabled);
  e.tap("Brood: not known in 2"), e.tap("Not looked");
  CHECK_FALSE(std::holds_alternative<engine::BroodNoted>(last(e)));
  CHECK_FALSE(e.target("Take this plan").enabled);
  e.tap("Brood: not known in 2"), e.tap("no eggs, no larvae");
  const auto* noted = std::get_if<engine::BroodNoted>(&last(e));
  REQUIRE(noted != nullptr);
  CHECK(noted->what == engine::BroodFact::NoBrood);
  CHECK(noted->colonies.size() == 2);
  CHECK_FALSE(e.sees("CHECK YOUR LABEL"));
  e.tap("Take this plan");
  CHECK(std::holds_alternative<engine::CoursesPlanned>(last(e)));
}

TEST_CASE("eggs without caps count as brood; whoever holds to rounds all the same writes why") {
  Evening e;
  test::season(e);
  engine::LabelRules label = *e.farm.setup.rules;
  label.limits = engine::LabelLimits{.brood = engine::BroodNeed::None};
  e.write(engine::SetupChanged{.rules = label});
  for (const char* tapped : {"Courses", "Plan rounds", "Heron Weir"}) e.tap(tapped);
  e.hold("Plan it all the same");
  e.tap("Take this plan");
  const auto* planned = std::get_if<engine::CoursesPlanned>(&last(e));
  REQUIRE(planned != nullptr);
  CHECK(planned->reason.find("CHECK YOUR LABEL") != std::string::npos);
  for (const char* tapped : {"Plan rounds", "Miller", "Brood: not known", "but eggs or larvae"})
    e.tap(tapped);
  const auto* noted = std::get_if<engine::BroodNoted>(&last(e));
  REQUIRE(noted != nullptr);
  CHECK(noted->what == engine::BroodFact::BroodSeen);
  CHECK_FALSE(e.target("Take this plan").enabled);
}

TEST_CASE("an evening lost to rain moves the rest by one tap") {
  Evening e;
  test::season(e);
  for (const char* label : {"Courses", "Evenings", "Mon 24", "rain"}) e.tap(label);
  CHECK(e.sees("If it is lost, the rest moves so:"));
  e.tap("Evening lost");
  REQUIRE(e.refused.empty());
  const auto* lost = std::get_if<engine::EveningLost>(&last(e));
  REQUIRE(lost != nullptr);
  CHECK(lost->on == day(2026, 8, 24));
  CHECK(lost->why == engine::LossWhy::Rain);
  REQUIRE(lost->moved.size() == 1);
  for (const engine::Date d : lost->moved[0].rounds) CHECK(d != day(2026, 8, 24));
  CHECK(e.sees("lost"));
}

TEST_CASE("an evening that is not free is not planned on") {
  Evening e;
  test::season(e);
  for (const char* label : {"Courses", "Evenings", "Thu 20", "Not free"}) e.tap(label);
  CHECK(e.sees("not free"));
  e.tap("Free evenings");
  for (const char* label : {"Monday", "Tuesday", "Wednesday"}) e.tap(label);
  const auto* set = std::get_if<engine::FreeEveningsSet>(&last(e));
  REQUIRE(set != nullptr);
  CHECK(set->weekdays.size() == 4);
  CHECK(e.refused.empty());
}

TEST_CASE("a course shows when its cells open, and says that this is not how well it works") {
  Evening e;
  test::season(e);
  e.tap("Courses");
  test::tap_listed(e, "Thistle Bank");
  CHECK(e.sees("Worker cells of round 1"));
  CHECK(e.sees("opening"));
  while (!e.sees("That is not how well it works") && e.target("NEXT").enabled) e.tap("NEXT");
  CHECK(e.sees("That is not how well it works"));
}

TEST_CASE("queens caged in a whole yard offer one round in the broodless time first") {
  Evening e;
  test::season(e);
  for (const char* label : {"Courses", "Heron Weir", "Brood and queens"}) e.tap(label);
  e.hold("queen caged");
  REQUIRE(std::holds_alternative<engine::BroodNoted>(last(e)));
  CHECK(e.sees("No capped brood (queens caged) from"));
  e.tap("Plan rounds");
  e.tap("One round in the broodless time");
  e.tap("Take this plan");
  const auto* planned = std::get_if<engine::CoursesPlanned>(&last(e));
  REQUIRE(planned != nullptr);
  CHECK(planned->courses[0].rounds.size() == 1);
}

TEST_CASE("missed rounds are moved together, after a look at the new days") {
  Evening e;
  test::season(e);
  e.tap("Courses");
  e.tap("Missed rounds");
  CHECK(e.sees("Quarry Gate: 19 Aug"));
  e.tap("Take the new days");
  REQUIRE(e.refused.empty());
  CHECK(std::holds_alternative<engine::CoursesPlanned>(last(e)));
  CHECK_FALSE(e.has("Missed rounds"));
}

// Assumed: 2 (10 + 22 * 3) + 20 minutes, more than the 150 of an evening. With three vaporizers and
// ten cloths the planner walks each in less than an hour.
TEST_CASE("an evening holds the yards whose walks fit into it as they are planned") {
  Evening e({.colonies = 22, .vaporizers = 3, .cloths = 10});
  e.write(engine::YardAdded{test::id<engine::YardId>(2), "Quarry Gate"});
  for (int n = 0; n < 22; ++n)
    e.write(engine::ColonyAdded{test::id<engine::ColonyId>(300 + n), test::id<engine::YardId>(2),
                                fmt::format("Q{}", n + 1), 2});
  for (const char* label : {"Courses", "Plan rounds", "Quarry Gate", "Thistle Bank"}) e.tap(label);
  for (int i = 0; i < 5; ++i) e.redraw();
  e.tap("Take this plan");
  const auto* planned = std::get_if<engine::CoursesPlanned>(&last(e));
  REQUIRE(planned != nullptr);
  REQUIRE(planned->courses.size() == 2);
  CHECK(planned->courses[0].rounds == planned->courses[1].rounds);
}

TEST_CASE("a treatment that may not be used now says why") {
  Evening e;
  test::season(e);
  for (const char* label : {"Courses", "Thistle Bank", "Which treatment"})
    test::tap_listed(e, label);
  CHECK(e.sees("Oxalic acid vapor"));
  while (!e.sees("Formic acid pads") && e.target("NEXT").enabled) e.tap("NEXT");
  CHECK(e.sees("Formic acid pads"));
}

TEST_CASE("what to expect stands versus no treatment and versus today, and is called a model") {
  Evening e;
  expect_at_heron_weir(e);
  for (const char* words :
       {"expected mites on 100 bees (model)", "versus no treatment", "versus today", "no treatment",
        "with rounds", "threshold 3.0", "only a count shows"}) {
    INFO(std::string(words));
    CHECK(e.sees(words));
  }
  CHECK(e.sees("FIRST"));  // a time without brood comes before rounds with it
}

TEST_CASE("what mites from outside would do is asked in steps") {
  Evening e;
  expect_at_heron_weir(e);
  CHECK(e.sees("none; tap for what if"));
  for (int i = 0; i < 3; ++i) e.tap("Mites from outside");
  CHECK(e.sees("10 a day, a guess"));
  CHECK(e.sees("came in from other colonies"));
}

TEST_CASE("without a count there is nothing to expect from") {
  Evening e;
  test::season(e);
  for (const char* label : {"Courses", "Heron Weir", "What to expect"}) e.tap(label);
  CHECK(e.sees("Count first"));
}

TEST_CASE("the counts after a course say whether it worked, colony by colony") {
  Evening e;
  test::walked_and_counted(e);
  e.tap("Courses");
  CHECK((e.sees("DID IT WORK?") || e.sees("FAILED")));
  e.tap("Heron Weir");
  e.tap("Did it work?");
  CHECK(e.sees("mites ("));  // the verdict's line comes first
  for (const char* words : {"H1", "H2", "no change", "95 % limits"}) {
    INFO(std::string(words));
    CHECK(e.sees(words));
  }
  e.tap("Why?");
  bool said = false;
  while (!(said = e.sees("a change, not an efficacy")) && e.target("NEXT").enabled) e.tap("NEXT");
  CHECK(said);
  CHECK_FALSE(e.sees("no change"));
  e.tap("The colonies");
  CHECK(e.sees("H1"));
}

}  // namespace courses_screen_test
