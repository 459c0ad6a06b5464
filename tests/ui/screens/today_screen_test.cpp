#include <doctest/doctest.h>

#include "engine/agenda/agenda.h"
#include "tests/support/farm_states.h"
#include "tests/support/walk_states.h"
#include "ui/screens/today/due_items.h"

namespace today_screen_test {

using test::Evening;

TEST_CASE("Today starts a walk of the most overdue round in one tap") {
  Evening e;
  test::season(e);
  e.tap("Start walk");
  CHECK(e.views.screen == ui::ScreenName::Walk);
  CHECK(e.views.walk.opening.yard == test::id<engine::YardId>(2));
  CHECK(e.views.walk.opening.course == test::id<engine::CourseId>(2));
  CHECK(e.views.walk.opening.only.empty());
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
  CHECK(e.views.walk.opening.only == want);
  CHECK(e.views.walk.opening.yard == test::id<engine::YardId>(1));
}

TEST_CASE("Today says how many days a round is over, in words beside the colour") {
  Evening e;
  test::season(e);
  CHECK(e.sees("3 days over, 9 colonies"));
  CHECK(e.sees("OVERDUE"));
  CHECK(e.sees("DUE TODAY"));
}

TEST_CASE("Today, Counts and Courses lead with the same yards, in the engine's order") {
  Evening e;
  test::season(e);
  for (int n = 1; n <= 2; ++n)
    e.write(engine::CountTaken{test::id<engine::ColonyId>(500 + n), e.look().today(),
                               engine::CountMethod::AlcoholWash, 30, 300});
  e.redraw();
  const auto today = e.look().today();
  const auto agenda = engine::agenda_on(e.farm, today);
  const auto items = ui::due_items(e.look(), engine::due_on(e.farm, today), agenda);
  std::vector<std::string> yards_said, yards_meant;
  for (const ui::DueItem& item : items)
    if (item.yard) yards_said.push_back(e.farm.yards.at(*item.yard).name);
  for (const engine::AgendaItem& a : agenda) yards_meant.push_back(e.farm.yards.at(a.yard).name);
  CHECK(yards_said == yards_meant);
  CHECK(items.front().kind == ui::DueItem::Kind::Treat);
  CHECK(e.has("Heron Weir: plan rounds"));
  CHECK(e.sees("plan rounds, "));
  e.tap("Plan rounds");
  CHECK(e.views.screen == ui::ScreenName::Courses);
  CHECK(e.views.courses.wanted == std::set{test::id<engine::YardId>(5)});
  e.tap("Counts");
  CHECK(e.sees("TREAT"));
}

TEST_CASE("a count without its bees is asked for them from Today, once") {
  Evening e;
  test::season(e);
  e.write(engine::CountTaken{test::id<engine::ColonyId>(501), e.look().today(),
                             engine::CountMethod::AlcoholWash, 12, std::nullopt});
  e.redraw();
  test::tap_listed(e, "Heron Weir: how many bees?");
  e.tap("Enter the sample");
  e.tap("300 bees");
  if (e.has("OK")) e.tap("OK");
  CHECK(e.refused.empty());
  CHECK(engine::due_on(e.farm, e.look().today()).samples.empty());
  CHECK(e.views.counts.page_of != ui::CountsPage::Entry);
  e.tap("Today");
  CHECK_FALSE(e.sees("how many bees?"));
}

TEST_CASE("an empty farm says what to do, and adds a yard in two taps and its letters") {
  Evening e;
  e.farm = {};
  e.views = {};
  e.redraw();
  CHECK(e.sees("0 of 9 ready for a first walk"));
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
  test::start_walk(e);
  e.tap("Today");
  CHECK(e.sees("under way in Quarry Gate"));
  CHECK(e.has("Walk: on"));
  CHECK_FALSE(e.has("Start walk"));
  e.tap("Back to the walk");
  CHECK(e.views.screen == ui::ScreenName::Walk);
}

TEST_CASE("the yard of the walk under way says since when, and warns the day after") {
  Evening e;
  test::season(e);
  e.tap("Start walk");
  test::start_walk(e);
  e.tap("Today");
  CHECK(e.sees("Walk open since 20:"));
  CHECK(e.sees("WALK ON"));
  CHECK_FALSE(e.sees("OVERDUE"));
  e.jump(std::chrono::hours{12});
  CHECK(e.sees("Walk open since Wed 19 Aug 2026, 20:"));
  CHECK(e.sees("STILL OPEN"));
}

TEST_CASE("a colony left closed comes first on Today, and is opened by one tap") {
  Evening e;
  test::season(e);
  test::leave_covered(e);
  CHECK(e.sees("the bees need air"));
  e.tap("Cloth is off");
  CHECK(e.refused.empty());
  CHECK_FALSE(e.sees("the bees need air"));
  const auto* off = std::get_if<engine::ColonyUncovered>(&e.farm.log.back()->event.body);
  REQUIRE(off != nullptr);
  CHECK(off->walk == test::id<engine::WalkId>(600));
  CHECK(off->colony == e.colony(3));
}

TEST_CASE("a label file that was left out is among the things to look after") {
  Evening e;
  test::season(e);
  e.refused_files = {"/home/keeper/.local/share/duskwalk/labels/own.json: rules: no dose"};
  e.redraw();
  e.tap("Files left out");
  CHECK(e.sees("own.json: rules: no dose"));
  e.tap("Open setup");
  e.tap("1 file was left out");
  CHECK(e.sees("own.json: rules: no dose"));
  e.tap("Back");
  CHECK(e.sees("Check your label: the one in your hand decides."));
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
  CHECK(e.sees("Pack for tonight, 2 yards"));
  CHECK(e.sees("not ready"));
  CHECK(e.sees("0 charged"));
  e.tap("Pack for tonight, 2 yards");
  CHECK(e.views.screen == ui::ScreenName::Kit);
  CHECK(e.sees("Not ready for 15 colonies: "));
  CHECK(e.sees("no charged battery, "));
}

TEST_CASE("what is wrong has a cell in the bar of every screen, and a page behind it") {
  Evening e;
  test::season(e);
  e.troubles = {{ui::TroubleKind::DiskFull, "The disk of this tablet is nearly full."}};
  for (const char* screen : {"Today", "Yards", "Kit", "Register", "Setup"}) {
    e.tap(screen);
    INFO(std::string(screen));
    CHECK(e.has("Disk full"));
    CHECK_FALSE(e.sees("nearly full"));
  }
  e.tap("Disk full");
  CHECK(e.sees("nearly full"));
  e.tap("Back to Today");
  CHECK(e.views.screen == ui::ScreenName::Today);
  e.troubles.push_back({ui::TroubleKind::Contradictions, "Two tablets treated A3."});
  e.redraw();
  e.tap("2 alarms");
  e.tap("Other tablets");
  CHECK(e.views.screen == ui::ScreenName::Register);
  CHECK(e.views.book.page_of == ui::BookPage::Tablets);
  e.tap("2 alarms");
  e.troubles.clear();
  e.redraw();
  CHECK(e.sees("Nothing is wrong any more."));
  CHECK_FALSE(e.has("alarms"));
}

TEST_CASE("in a walk the menu leads to what is wrong, and back") {
  Evening e;
  test::through_gate(e);
  e.tap("Menu");
  CHECK_FALSE(e.has("What is wrong"));
  e.troubles = {{ui::TroubleKind::Clock, "The tablet's clock is behind."}};
  e.redraw();
  e.tap("What is wrong");
  CHECK(e.sees("clock is behind"));
  e.tap("Back to the walk");
  CHECK(e.views.screen == ui::ScreenName::Walk);
}

TEST_CASE("a count that is due is one tap away") {
  Evening e;
  test::season(e);
  while (!e.has("Heron Weir: count") && e.target("NEXT").enabled) e.tap("NEXT");
  e.tap("Heron Weir: count");
  e.tap("Count mites");
  CHECK(e.views.screen == ui::ScreenName::Counts);
  CHECK(e.has("Count a colony"));
}

TEST_CASE("Today says when the bees are home and leads to the trip on a clock") {
  Evening e;
  test::season(e);
  CHECK(e.sees("no place is known"));
  e.write(engine::SetupChanged{.home = engine::Place{45'000'000, -119'000'000}});
  e.redraw();
  CHECK(e.sees("bees home: fair;"));
  e.tap("Tonight");
  CHECK(e.sees("leave home"));
  CHECK(e.sees("Quarry Gate"));
  CHECK(e.sees("back home"));
  CHECK(e.sees("Fair: by the light alone."));
  CHECK(e.sees("Assumed: 20 min for a drive that nobody entered."));
  e.tap("Back");
  CHECK(e.has("Start walk"));
}

TEST_CASE("the trip is drawn with assumed walks first, then planned one yard a frame") {
  Evening e;
  test::season(e);
  e.write(engine::SetupChanged{.home = engine::Place{45'000'000, -119'000'000}});
  e.views = {};
  const ui::Look look = e.look();
  const ui::Tonight& first = e.answers.season.tonight(look);
  CHECK(first.planned.empty());
  CHECK_FALSE(first.settled);
  const std::size_t due = first.due.size();
  REQUIRE(due >= 2);
  for (std::size_t i = 0; i < due; ++i) {
    (void)e.answers.season.tonight(look);
    e.answers.advance(e.farm);
  }
  const ui::Tonight& then = e.answers.season.tonight(look);
  CHECK(then.settled);
  CHECK(then.planned.size() == due);
  // An entry that changes no walk leaves the plans as they are.
  e.write(engine::NoteWritten{.text = "grass cut"});
  CHECK(e.answers.season.tonight(e.look()).settled);
  engine::KitChanged gone{test::id<engine::KitId>(3)};
  gone.retired = true;
  e.write(gone);
  CHECK_FALSE(e.answers.season.tonight(e.look()).settled);
}

TEST_CASE("the trip says which lengths are planned, and assumes them where there is no kit") {
  Evening e;
  test::season(e);
  e.write(engine::SetupChanged{.home = engine::Place{45'000'000, -119'000'000}});
  for (int i = 0; i < 8; ++i) e.redraw();
  e.tap("Tonight");
  CHECK(e.sees("Walks by the plan: Quarry Gate "));
  CHECK_FALSE(e.sees("Walks assumed"));
  for (const int n : {1, 40}) {
    engine::KitChanged gone{test::id<engine::KitId>(n)};
    gone.retired = true;
    e.write(gone);
  }
  e.redraw();
  CHECK(e.sees("Walks assumed: Quarry Gate"));
  CHECK(e.sees("vaporizer"));
  CHECK(e.sees("not ready"));
}

TEST_CASE("the air expected at dusk is typed in, kept, and taken back") {
  Evening e;
  test::season(e);
  e.write(engine::SetupChanged{.home = engine::Place{45'000'000, -119'000'000}});
  e.redraw();
  e.tap("Tonight");
  CHECK(e.sees("how warm it is was not said"));
  e.tap("Air at dusk"), e.tap("7"), e.tap("OK");
  CHECK(e.refused.empty());
  CHECK(engine::air_expected(e.farm, e.look().today(), engine::HomePart::Evening) ==
        engine::Temperature{70});
  CHECK(e.sees("Below 10 °C hardly a bee flies"));
  e.tap("Air at dusk"), e.tap("Not known");
  CHECK_FALSE(engine::air_expected(e.farm, e.look().today(), engine::HomePart::Evening));
  e.write(engine::SetupChanged{.temperature_unit = engine::TemperatureUnit::Fahrenheit});
  e.tap("Air at dusk"), e.tap("4"), e.tap("1"), e.tap("OK");
  CHECK(engine::air_expected(e.farm, e.look().today(), engine::HomePart::Evening) ==
        engine::Temperature{50});
}

}  // namespace today_screen_test
