// The walk as a keeper taps it: the real screens, a farm in memory, a virtual clock.
//
// Sizes and gaps are those of ui/touch/touch.h; contrast 7 is WCAG 2.2 success criterion 1.4.6; the
// quarter of the screen and the two taps a colony are this product's own promises.
#include <doctest/doctest.h>

#include <algorithm>

#include "tests/support/walk_seen.h"
#include "ui/screens/walk/now/walk_layout.h"
#include "ui/touch/faults.h"

namespace walk_screen_test {

using namespace std::chrono_literals;
using test::act;
using test::action;
using test::Evening;
using test::last_body;
using test::Outfit;
using test::stop;
using test::through_gate;

namespace {

// Only ever the action button, only ever a plain tap; waits while it is held or grey.
int tap_to_the_end(Evening& e) {
  const int before = e.taps;
  for (int patience = 0; patience < 4000; ++patience) {
    const ui::Target* button = action(e);
    if (button == nullptr) break;
    if (button->hold || !button->enabled)
      e.jump(5s);
    else
      e.tap(button->label);
  }
  return e.taps - before;
}

}  // namespace

TEST_CASE("a walk of N colonies with K cloths takes at most 2N + K taps after the gate") {
  struct Row {
    std::string name;
    int colonies, vaporizers, cloths;
  };
  const Row rows[] = {{"one colony", 1, 1, 1},
                      {"no cloths", 4, 1, 0},
                      {"one cloth", 5, 1, 1},
                      {"three cloths", 9, 1, 3},
                      {"two vaporizers", 9, 2, 3},
                      {"more of all", 14, 3, 8},
                      {"more cloths than hives", 3, 1, 6}};
  for (const Row& r : rows) {
    INFO(r.name);
    Evening e({.colonies = r.colonies, .vaporizers = r.vaporizers, .cloths = r.cloths});
    through_gate(e);
    CHECK(tap_to_the_end(e) <= 2 * r.colonies + r.cloths);
    REQUIRE(e.walk() != nullptr);
    CHECK(engine::complete(*e.walk()));
    CHECK(e.sees("all done"));
    CHECK(e.refused.empty());
  }
}

TEST_CASE("START asks about flying bees when nobody has said it, then opens with all noted") {
  Evening e({.colonies = 3, .vaporizers = 2, .cloths = 2});
  e.tap("START");
  CHECK(e.walk() == nullptr);
  CHECK(e.sees("Bees flying?"));
  e.tap("Some");
  CHECK(last_body<engine::WalkOpened>(e).conditions.flight == engine::Flight::Some);
  const auto& opened = last_body<engine::WalkOpened>(e);
  CHECK(opened.colonies.size() == 3);
  CHECK(opened.vaporizers.size() == 2);
  CHECK(opened.cloths.size() == 2);
  CHECK(opened.respirator.has_value());
  CHECK(opened.rules.product == "Oxalic acid, label of the test");
  CHECK(opened.operator_name == "Wren Aldous");
  CHECK(opened.reason == "varroa");
}

TEST_CASE("conditions and kit tapped on the opening page go into the walk") {
  Evening e({.cloths = 3});
  e.tap("Temperature"), e.tap("1 more"), e.tap("5 more"), e.tap("Done");  // from 20 C
  e.tap("Wind"), e.tap("South-west");
  e.tap("Rain"), e.tap("Some");
  e.tap("Carried"), e.tap("cloth 2"), e.tap("Done");
  e.tap("START");
  const auto& opened = last_body<engine::WalkOpened>(e);
  CHECK(opened.conditions.temperature == engine::Temperature{250});
  CHECK(opened.conditions.wind_from_deg == 225);
  CHECK(opened.conditions.rain);
  CHECK(opened.conditions.flight == engine::Flight::Some);
  CHECK(opened.cloths.size() == 2);
}

TEST_CASE("the opening page warns before it is too late") {
  Evening e({.cloths = 0, .respirator = false});
  CHECK(e.sees("No respirator"));
  CHECK(e.sees("No cloth carried"));
  Evening flying;
  flying.tap("Heavy");
  CHECK(flying.sees("Bees fly heavily"));
  Evening supers;
  supers.write(engine::ColonyChanged{.colony = supers.colony(2), .supers_on = true});
  supers.redraw();
  CHECK(supers.sees("Do not treat: supers on 1 colony."));
  Evening unsure({.supers = engine::Supers::Unknown});
  unsure.write(engine::ColonyChanged{.colony = unsure.colony(2), .supers_on = true});
  unsure.redraw();
  CHECK(unsure.sees("1 colony has honey supers on: check your label."));
  Evening bare({.vaporizers = 0});
  CHECK_FALSE(bare.has("START"));
  bare.tap("Go to Kit");
  CHECK(bare.views.screen == ui::ScreenName::Kit);
}

TEST_CASE("brood that nobody noted makes START a held one under a label that minds it") {
  Evening e({.colonies = 3});
  engine::LabelRules label = *e.farm.setup.rules;
  label.limits = engine::LabelLimits{.brood = engine::BroodNeed::None};
  e.write(engine::SetupChanged{.rules = label});
  e.redraw();
  CHECK(e.sees("CHECK YOUR LABEL"));
  CHECK(e.target("START").hold);
  e.tap("Brood: not known in 3"), e.tap("Not looked");
  CHECK(e.target("START").hold);
  e.tap("Brood: not known in 3"), e.tap("no eggs, no larvae");
  CHECK(last_body<engine::BroodNoted>(e).what == engine::BroodFact::NoBrood);
  CHECK_FALSE(e.sees("CHECK YOUR LABEL"));
  CHECK_FALSE(e.target("START").hold);
}

TEST_CASE("a walk opened with brood not known says so in its reason") {
  Evening e;
  engine::LabelRules label = *e.farm.setup.rules;
  label.limits = engine::LabelLimits{.brood = engine::BroodNeed::None};
  e.write(engine::SetupChanged{.rules = label});
  e.redraw();
  e.tap("Some");
  e.hold("START");
  CHECK(last_body<engine::WalkOpened>(e).reason.find("CHECK YOUR LABEL") != std::string::npos);
}

TEST_CASE("without a label START is grey until one is chosen here") {
  Evening e({.label = false});
  CHECK_FALSE(e.target("START").enabled);
  e.labels = {{.id = "a",
               .region = "Test land",
               .name = "Generic powder",
               .checked = "2026-01-10",
               .rules = test::test_rules(engine::Supers::Forbidden)}};
  e.tap("Choose the label");
  e.tap("Generic powder");
  CHECK(last_body<engine::SetupChanged>(e).rules->per_brood_box == engine::Mass{1000});
  CHECK(e.target("START").enabled);
}

TEST_CASE("a walk of come-back colonies holds only those") {
  Evening e({.colonies = 5});
  e.views.walk.opening.only = {e.colony(2), e.colony(4)};
  e.redraw();
  test::start(e);
  CHECK(last_body<engine::WalkOpened>(e).colonies.size() == 2);
  CHECK(last_body<engine::WalkOpened>(e).reason == "varroa, come-back");
}

TEST_CASE("no vapor before each protection is confirmed on its own") {
  Evening e;
  e.tap("Wind"), e.tap("West"), test::start(e);
  CHECK(e.sees("keep people off the east"));
  CHECK(e.sees("acid gas + P100"));
  const char* items[] = {"Respirator", "Eye protection", "Gloves", "Rinse water", "Nobody"};
  for (const char* item : items) {
    CHECK(action(e) == nullptr);
    e.tap(item);
  }
  CHECK(e.walk()->confirmed.size() == 5);
  CHECK(action(e) != nullptr);
}

TEST_CASE("the sentence says the step with dose, colony, cloth and where it lies") {
  Evening e;
  through_gate(e);
  CHECK(e.sees("A1: 2 g, set in the entrance"));
  CHECK(e.sees("dihydrate (1.43 g anhydrous), vaporizer 1"));
  act(e, 1);
  CHECK(e.sees("A1: lift in 1:30"));
  act(e, 4);
  e.jump(90s);
  CHECK(e.sees("A3: lift, close with cloth 1"));
  CHECK(e.sees("Lift from A3"));
  CHECK(e.sees("Next: Set A4"));
}

TEST_CASE("grams or ounces, Celsius or Fahrenheit, as the setup says") {
  Evening e;
  e.write(engine::SetupChanged{.temperature_unit = engine::TemperatureUnit::Fahrenheit,
                               .mass_unit = engine::MassUnit::Ounce});
  e.redraw();
  e.tap("Temperature"), e.tap("1 more"), e.tap("1 more");
  CHECK(e.sees("69 \u00b0F"));
  e.tap("50 \u00b0F");  // 10 degrees Celsius by definition of the scales
  CHECK(e.views.walk.opening.conditions.temperature == engine::Temperature{100});
  e.tap("Done");
  through_gate(e);
  CHECK(e.sees("A1: 0.071 oz, set in the entrance"));  // 2 g / 28.349523125
}

TEST_CASE("a short dwell has to be held, a long enough one is tapped") {
  Evening e;
  through_gate(e);
  e.tap("A1 is set");
  e.jump(50s);
  CHECK_THROWS(e.tap("A1 is covered"));
  CHECK(e.sees("Short dwell: 0:5"));
  e.jump(10s);
  e.tap("A1 is covered");
  CHECK(stop(e, 1).phase == engine::Phase::Covered);
  Evening early;
  through_gate(early);
  early.tap("A1 is set");
  early.hold("A1 is covered");
  CHECK(stop(early, 1).phase == engine::Phase::Covered);
}

TEST_CASE("a seal that would be short has to be held, also when its cloth goes elsewhere") {
  Evening e({.colonies = 2, .cloths = 1});
  through_gate(e);
  act(e, 3);
  e.jump(91s);
  CHECK(e.sees("Short seal: A1 has been closed 1:3"));
  e.hold("A2 is covered");
  CHECK(stop(e, 1).phase == engine::Phase::Done);
  CHECK_THROWS(e.tap("Cloth off A2"));
  e.jump(300s);
  e.tap("Cloth off A2");
  CHECK(engine::complete(*e.walk()));
}

TEST_CASE("honey supers that the label forbids make the setting a held one") {
  Evening e;
  e.write(engine::ColonyChanged{.colony = e.colony(1), .supers_on = true});
  through_gate(e);
  CHECK(e.sees("Honey supers are on: the label forbids it."));
  e.hold("A1 is set");
  CHECK(last_body<engine::VaporizerSet>(e).supers_on);
}

TEST_CASE("a dose over the label warns, has to be held and is recorded as such") {
  Evening e;
  through_gate(e);
  e.tap("Dose"), e.tap("Label most 4 g"), e.tap("More");
  CHECK(e.sees("OVER THE LABEL"));
  e.tap("Back");
  CHECK(e.sees("Over the label: at most 4 g."));
  e.hold("A1 is set");
  CHECK(last_body<engine::VaporizerSet>(e).dose == engine::Mass{4250});
  CHECK(stop(e, 1).treatments.back().over_label);
}

TEST_CASE("a dose is meant for one colony; the next one gets its own prompt") {
  Evening e({.boxes = {2, 1}});
  through_gate(e);
  e.tap("Dose"), e.tap("Less"), e.tap("Back");
  CHECK(e.sees("A1: 1.75 g"));
  e.tap("A2");
  CHECK(e.sees("A2: 1 g"));
  e.tap("A2 is set");
  CHECK(last_body<engine::VaporizerSet>(e).dose == engine::Mass{1000});
}

TEST_CASE("a typed dose and corrected brood boxes are taken over") {
  Evening e;
  through_gate(e);
  e.tap("Dose"), e.tap("Type it"), e.tap("3"), e.tap("."), e.tap("5"), e.tap("OK");
  CHECK(e.sees("3.5 g"));
  e.tap("Brood boxes +");
  CHECK(last_body<engine::ColonyChanged>(e).brood_boxes == 3);
  e.tap("Back");
  CHECK(e.sees("A1: 3 g"));
}

TEST_CASE("every reason to pass over is one button, and the walk goes on behind it") {
  const char* labels[] = {"Bees flying",     "Dead-out",     "Too weak",   "Queenless",
                          "Honey supers on", "Out of reach", "Aggressive", "Other reason"};
  for (int i = 0; i < 8; ++i) {
    INFO(std::string(labels[i]));
    Evening e;
    through_gate(e);
    e.tap("Skip");
    e.tap(labels[i]);
    CHECK(last_body<engine::ColonyPassedOver>(e).reason == static_cast<engine::PassReason>(i));
    CHECK(e.sees("A2: "));
  }
}

TEST_CASE("pass over during a dwell is about the next colony, not the one under vapor") {
  Evening e;
  through_gate(e);
  act(e, 1);
  e.tap("Skip");
  CHECK(e.sees("Skip A2"));
  e.tap("Too weak");
  CHECK(stop(e, 2).phase == engine::Phase::PassedOver);
  CHECK(stop(e, 1).phase == engine::Phase::UnderVapor);
}

TEST_CASE("bees flying is noted for a colony or for the yard") {
  Evening e;
  through_gate(e);
  e.tap("Flying"), e.tap("A1: heavy");
  CHECK(stop(e, 1).flight == engine::Flight::Heavy);
  e.tap("Flying"), e.tap("Yard: some");
  CHECK(e.walk()->flight == engine::Flight::Some);
}

TEST_CASE("every mishap is one button; vapor breathed in opens first aid at once") {
  struct Row {
    std::string label;
    engine::MishapKind kind;
    bool colony;
  };
  using K = engine::MishapKind;
  const Row rows[] = {{"Vaporizer dropped", K::Dropped, true},
                      {"Seal leaking", K::LeakingSeal, true},
                      {"Acid spilled", K::Spill, true},
                      {"Stung", K::Stung, false},
                      {"Vapor breathed in", K::InhaledVapor, false},
                      {"Vaporizer not recovering", K::NotRecovering, true}};
  for (const Row& r : rows) {
    INFO(r.label);
    Evening e;
    through_gate(e);
    e.tap("Problem"), e.tap(r.label);
    CHECK(last_body<engine::Mishap>(e).what == r.kind);
    CHECK(last_body<engine::Mishap>(e).colony.has_value() == r.colony);
    CHECK(e.sees("First aid: oxalic acid") == (r.kind == K::InhaledVapor));
  }
}

TEST_CASE("strike last shows the entry, has to be held, and keeps the reason") {
  Evening e;
  through_gate(e);
  e.tap("A1 is set");
  e.tap("Undo last");
  CHECK(e.sees("A1: 2 g dihydrate set, vaporizer 1"));
  CHECK_THROWS(e.tap("Undo it"));
  e.tap("Wrong colony");
  e.hold("Undo it");
  CHECK(stop(e, 1).phase == engine::Phase::ToDo);
  CHECK(last_body<engine::EntryStruck>(e).reason == "Wrong colony");
  CHECK(e.sees("A1: 2 g"));
}

TEST_CASE("the app follows the keeper to another colony and then back to the order") {
  Evening e;
  through_gate(e);
  e.tap("A4");
  CHECK(e.sees("A4: 2 g"));
  e.tap("A4 is set");
  CHECK_FALSE(e.views.walk.under_way.chosen.has_value());
  e.jump(95s);
  e.tap("A4 is covered");
  CHECK(e.sees("A1: "));
  e.tap("cloth 1 on A4");
  CHECK(e.sees("A4: open in"));
  e.tap("In order");
  CHECK(e.sees("A1: "));
}

TEST_CASE("what is impossible is grey and says why") {
  Evening e;
  through_gate(e);
  act(e, 1);
  e.tap("A3");
  REQUIRE(action(e) != nullptr);
  CHECK_FALSE(action(e)->enabled);
  CHECK(e.sees("This vaporizer stands in another colony; lift it there first."));
}

TEST_CASE("a second dose in one walk has to be held") {
  Evening e;
  through_gate(e);
  act(e, 6);
  e.tap("A1");
  CHECK(e.sees("Got 2 g today already, last at "));
  e.hold("A1 is set");
  CHECK(stop(e, 1).treatments.size() == 2);
}

TEST_CASE("pause keeps the clocks running, resume goes on") {
  Evening e;
  through_gate(e);
  act(e, 1);
  e.tap("Pause"), e.tap("Pause the walk");
  CHECK(e.sees("The walk is paused since"));
  e.jump(120s);
  CHECK(e.sees("Lift from A1"));
  e.tap("Resume the walk");
  CHECK(e.sees("A1: lift, close"));
}

TEST_CASE("closing early says what is left, and is refused under vapor") {
  Evening e({.colonies = 4});
  through_gate(e);
  act(e, 1);
  e.tap("Pause");
  CHECK_FALSE(e.target("Close the walk").enabled);
  CHECK(e.sees("Under vapor: A1"));
  e.tap("Back");
  act(e, 1);
  e.tap("Pause");
  CHECK(e.sees("Cloths still lie on A1"));
  CHECK(e.sees("If you close now: 3 colonies go to the come-back list."));
  e.hold("Close the walk");
  e.hold("Leave them shut");
  CHECK(e.walk() == nullptr);
  CHECK(engine::come_back_list(e.farm).size() == 4);
}

TEST_CASE("finishing with cloths on, the page is the hives still shut, each one tap") {
  Evening e({.colonies = 6, .cloths = 3});
  through_gate(e);
  act(e, 4);
  e.jump(200s);
  e.tap("Pause");
  e.hold("Close the walk");
  CHECK(e.sees("2 hives are still shut"));
  CHECK(e.walk() != nullptr);
  CHECK(e.has("Cloth off A1"));
  e.tap("Cloth off A1");
  CHECK(stop(e, 1).phase == engine::Phase::Done);
  CHECK(e.sees("1 hive is still shut"));
  e.tap("Cloth off A2");
  CHECK_FALSE(e.sees("still shut"));
  e.hold("Close the walk");
  CHECK(e.walk() == nullptr);
  CHECK(e.refused.empty());
}

TEST_CASE("the end tells treated, passed over, come-backs with reasons") {
  Evening e({.colonies = 3});
  through_gate(e);
  e.tap("Skip"), e.tap("Queenless");
  act(e, 2);
  e.tap("Problem"), e.tap("Seal leaking");  // at A2, covered last
  act(e, 4);
  CHECK(e.sees("A1: passed over: queenless"));
  CHECK(e.sees("A2: mishap: seal leaking"));
  e.tap("Write the log");
  CHECK(e.views.screen == ui::ScreenName::Register);
  e.views.screen = ui::ScreenName::Walk;
  e.redraw();
  e.tap("Close the walk");
  CHECK(e.walk() == nullptr);
}

TEST_CASE("a restart in mid-walk loses nothing: the screen needs no memory") {
  Evening e;
  through_gate(e);
  act(e, 3);
  e.jump(40s);
  e.views = {};
  e.views.screen = ui::ScreenName::Walk;
  e.redraw();
  CHECK(e.sees("A2: lift in 0:"));
  CHECK(e.has("cloth 1 on A1"));
}

TEST_CASE("first aid says whom to call and where the yard is, where that was said") {
  Evening e;
  through_gate(e);
  e.tap("First aid");
  CHECK(e.sees("Call the emergency number"));
  CHECK_FALSE(e.sees("You are at"));
  engine::SetupChanged setup;
  setup.emergency_number = "144";
  e.write(setup);
  engine::YardChanged card{e.walk()->yard};
  card.address = "Mill Lane 3, by the bridge";
  e.write(card);
  e.redraw();
  CHECK(e.sees("Call 144 or the poison centre"));
  CHECK(e.sees("You are at: Mill Lane 3, by the bridge"));
  CHECK(ui::faults(e.touch()).empty());
}

TEST_CASE("first aid is at most two taps away from every walk screen") {
  for (const test::WalkState& state : test::walk_states()) {
    INFO(state.name);
    Evening e(state.outfit);
    state.reach(e);
    e.redraw();
    if (state.name == "first-aid") e.tap("Back");
    const int before = e.taps;
    e.tap("First aid");
    CHECK(e.taps - before <= 2);
    for (const char* word : {"Eyes", "Skin", "Breathing", "Swallowed", "poison centre"})
      CHECK(e.sees(word));
    e.tap("Back");
    CHECK_FALSE(e.sees("poison centre"));
  }
}

TEST_CASE("every state in every theme: targets, gaps, contrast, nothing cut, a quarter to act") {
  for (const test::Panel& panel : {test::landscape(), test::portrait()})
    for (const test::WalkState& state : test::walk_states()) {
      Evening e(state.outfit, panel);
      state.reach(e);
      for (const ui::Theme& theme : {ui::sun_theme(), ui::dusk_theme(), ui::night_theme()}) {
        INFO(state.name, " ", panel.name, " ", theme.name);
        e.wear(theme);
        for (const std::string& fault : ui::faults(e.touch())) FAIL_CHECK(fault);
        CHECK(e.refused.empty());
        if (!state.walking) continue;
        REQUIRE(action(e) != nullptr);
        const ui::Rect& r = action(e)->rect;
        CHECK(r.w * r.h >= ui::kActionShare * panel.width * panel.height);
        for (const std::string& pale : ui::pale_texts(e.touch())) FAIL_CHECK(pale);
      }
    }
}

}  // namespace walk_screen_test
