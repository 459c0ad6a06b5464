// The walk's care for what is easily missed: cloths left on, doses given twice, breaks, mishaps.
//
// The numbers of the label are those of the harness; lengths of breaks are this product's choice.
#include <doctest/doctest.h>

#include "tests/support/walk_seen.h"

namespace walk_care_test {

using namespace std::chrono_literals;
using test::act;
using test::action;
using test::Evening;
using test::last_body;
using test::through_gate;

TEST_CASE("honey supers on under a label that does not say ask for the label, and are held") {
  Evening e({.supers = engine::Supers::Unknown});
  e.write(engine::ColonyChanged{.colony = e.colony(1), .supers_on = true});
  through_gate(e);
  CHECK(e.sees("Honey supers are on: check your label."));
  CHECK_THROWS(e.tap("A1 is set"));
  e.hold("A1 is set");
}

TEST_CASE("a closed walk shows its summary and offers the log, until Done") {
  Evening e({.colonies = 2});
  through_gate(e);
  act(e, 6);
  e.tap("Close the walk");
  CHECK(e.sees("walk closed at"));
  CHECK(e.sees("treated"));
  e.tap("Write the log");
  CHECK(e.views.screen == ui::ScreenName::Register);
  CHECK(e.views.book.writing);
  e.views.screen = ui::ScreenName::Walk;
  e.redraw();
  e.tap("Done");
  CHECK(e.sees("Which yard?"));
}

TEST_CASE("a walk that was left open is asked about, instead of a timer of days") {
  Evening e({.colonies = 3});
  through_gate(e);
  act(e, 2);
  e.jump(9h);
  CHECK_FALSE(e.sees("This walk is of"));
  e.jump(60h);
  CHECK(e.sees("This walk is of Fri 14 Aug"));
  CHECK(e.sees("opened at 19:40. 1 of 3 hives had their turn"));
  e.tap("Go on with it");
  CHECK_FALSE(e.sees("This walk is of"));
  e.views = {};
  e.views.screen = ui::ScreenName::Walk;
  e.redraw();
  e.hold("It was never ended: close it");
  CHECK(e.sees("closed long ago"));
  e.tap("Cloth off A1");
  e.hold("Close the walk");
  CHECK(e.walk() == nullptr);
  CHECK(e.refused.empty());
}

TEST_CASE("a cloth left on by a closed walk is offered to be taken off") {
  Evening e({.colonies = 3});
  through_gate(e);
  act(e, 2);
  e.tap("Pause"), e.hold("Close the walk"), e.hold("Leave them shut"), e.tap("Done");
  e.views.walk.opening.yard = e.farm.yards.begin()->first;
  e.redraw();
  CHECK(e.sees("A1 is still covered since"));
  e.tap("A1 is still covered");
  CHECK(last_body<engine::ColonyUncovered>(e).colony == e.colony(1));
  CHECK_FALSE(e.sees("still covered"));
}

TEST_CASE("a mishap is about the likely colony, or the one that is tapped") {
  Evening e;
  through_gate(e);
  act(e, 3);  // A1 covered, A2 under vapor
  e.tap("Problem"), e.tap("Seal leaking");
  CHECK(last_body<engine::Mishap>(e).colony == e.colony(1));
  CHECK(e.sees("Saved: A1 seal leaking"));
  CHECK(e.sees("A2: "));
  e.tap("Problem"), e.tap("Vaporizer dropped");
  CHECK(last_body<engine::Mishap>(e).colony == e.colony(2));
  e.tap("Problem"), e.tap("At A3"), e.tap("Acid spilled");
  CHECK(last_body<engine::Mishap>(e).colony == e.colony(3));
  e.tap("Problem"), e.tap("Another"), e.tap("A5"), e.tap("Seal leaking");
  CHECK(last_body<engine::Mishap>(e).colony == e.colony(5));
  CHECK_FALSE(e.views.walk.under_way.chosen.has_value());
  e.tap("Menu"), e.tap("Map"), e.tap("Back");
  CHECK_FALSE(e.sees("Saved:"));
}

TEST_CASE("a colony tapped on the map for a mishap is let go of after it") {
  Evening e;
  through_gate(e);
  act(e, 2);
  e.tap("A1"), e.tap("Problem"), e.tap("Seal leaking");
  CHECK(last_body<engine::Mishap>(e).colony == e.colony(1));
  CHECK(e.sees("A2: 2 g"));
}

TEST_CASE("a dose during a dwell is that of the next colony, and says so") {
  Evening e;
  through_gate(e);
  act(e, 1);
  e.tap("Dose");
  CHECK(e.sees("Next: A2"));
}

TEST_CASE("a second dose of the day is held when the sum is over the label") {
  Evening e({.colonies = 1});
  through_gate(e);
  e.tap("Dose"), e.tap("Label most 4 g"), e.tap("Back");
  act(e, 3);
  e.tap("Close the walk"), e.tap("Done");
  e.views.walk.opening.yard = e.farm.yards.begin()->first;
  e.redraw();
  through_gate(e);
  CHECK(e.sees("Got 4 g today already, last at "));
  CHECK(e.sees("Together over the label: at most 4 g."));
  CHECK_THROWS(e.tap("A1 is set"));
  e.hold("A1 is set");
}

TEST_CASE("after a long break the protection is ticked again before the next setting") {
  struct Row {
    std::string name;
    std::chrono::seconds length;
    bool pause, want;
  };
  const Row rows[] = {{"a pause just under ten minutes", 599s, true, false},
                      {"a pause of ten minutes", 600s, true, true},
                      {"half an hour", 1800s, false, true},
                      {"just under half an hour", 1740s, false, false}};
  for (const Row& r : rows) {
    INFO(r.name);
    Evening e;
    through_gate(e);
    act(e, 2);
    if (r.pause) e.tap("Pause"), e.tap("Pause the walk");
    e.jump(r.length);
    if (r.pause) e.tap("Resume the walk");
    CHECK(e.sees("After the break") == r.want);
    if (!r.want) continue;
    const auto entries = e.farm.log.size();
    for (const char* item : {"Respirator", "Eye protection", "Gloves", "Rinse water", "Nobody"}) {
      CHECK(action(e) == nullptr);
      e.tap(item);
    }
    e.redraw();
    CHECK(e.sees("A2: 2 g"));
    CHECK(e.farm.log.size() == entries);
  }
}

TEST_CASE("the cautions of the label profile can be read at the gate") {
  Evening e;
  e.labels = {{.id = e.farm.setup.rules->profile,
               .cautions = {"An invented caution of the test."},
               .rules = *e.farm.setup.rules}};
  test::start(e);
  e.tap("Cautions");
  CHECK(e.sees("An invented caution of the test."));
  e.tap("Back");
  CHECK(e.sees("Before the first vapor"));
}

TEST_CASE("six cloths keep six tiles, in the order of the cloths") {
  for (const test::Panel& panel : {test::landscape(), test::portrait()}) {
    INFO(panel.name);
    Evening e({.colonies = 14, .cloths = 6}, panel);
    through_gate(e);
    act(e, 12);
    const ui::Rect first = e.target("cloth 1 on A1").rect;
    for (int i = 2; i <= 6; ++i)
      CHECK(e.has("cloth " + std::to_string(i) + " on A" + std::to_string(i)));
    act(e, 2);
    CHECK(e.target("cloth 1 on A7").rect == first);
    CHECK_FALSE(e.has("more cloths"));
  }
}

}  // namespace walk_care_test
