#include <doctest/doctest.h>

#include "tests/ui/farm_states.h"

using test::Evening;

TEST_CASE("Today starts a walk of the most overdue round in one tap") {
  Evening e;
  test::season(e);
  e.tap("Start walk");
  CHECK(e.views.screen == ui::ScreenName::Walk);
  CHECK(e.views.walk.yard == test::id<engine::YardId>(2));
  CHECK(e.views.walk.course == test::id<engine::CourseId>(2));
  CHECK(e.views.walk.only.empty());
}

TEST_CASE("Today starts a walk of only the colonies to come back to") {
  Evening e;
  test::season(e);
  e.tap("Thistle Bank: come back");
  CHECK(e.sees("A2: passed over: bees flying"));
  CHECK(e.sees("A4: short seal (1:00)"));
  CHECK(e.sees("A6: not reached"));
  e.tap("Start walk");
  const std::vector<engine::ColonyId> want = {e.colony(2), e.colony(4), e.colony(6)};
  CHECK(e.views.walk.only == want);
  CHECK(e.views.walk.yard == test::id<engine::YardId>(1));
}

TEST_CASE("Today says how many days a round is over, in words beside the colour") {
  Evening e;
  test::season(e);
  CHECK(e.sees("3 days over, 9 colonies"));
  CHECK(e.sees("OVERDUE"));
  CHECK(e.sees("DUE TODAY"));
}

TEST_CASE("an empty farm says what to do, and adds a yard in two taps and its letters") {
  Evening e;
  e.farm = {};
  e.views = {};
  e.redraw();
  CHECK(e.sees("duskwalk read FILE.csv"));
  e.tap("Add a yard");
  e.tap("B");
  e.tap("OK");
  REQUIRE(engine::yards(e.farm).size() == 1);
  CHECK(engine::yards(e.farm)[0]->name == "B");
  CHECK(e.refused.empty());
}

TEST_CASE("with a walk under way Today leads back to it and the bar says so") {
  Evening e;
  test::season(e);
  e.tap("Start walk");
  e.tap("START");
  e.tap("Today");
  CHECK(e.sees("under way in Quarry Gate"));
  CHECK(e.has("Walk: on"));
  CHECK_FALSE(e.has("Start walk"));
  e.tap("Back to the walk");
  CHECK(e.views.screen == ui::ScreenName::Walk);
}

TEST_CASE("Today names what the kit lacks for the walk") {
  Evening e;
  test::season(e);
  for (int n = 5; n <= 8; ++n) {
    engine::KitChanged gone{test::id<engine::KitId>(n)};
    gone.retired = true;
    e.write(gone);
  }
  e.redraw();
  CHECK(e.sees("Not enough for this walk"));
  CHECK(e.sees("Charged batteries: 1 needed, 0 there"));
}

TEST_CASE("trouble with the journal stands on top of every screen") {
  Evening e;
  test::season(e);
  e.journal_line = "The disk of this tablet is nearly full: write the log and free room.";
  for (const char* screen : {"Today", "Yards", "Kit", "Register", "Setup"}) {
    e.tap(screen);
    INFO(std::string(screen));
    CHECK(e.sees("nearly full"));
  }
}
