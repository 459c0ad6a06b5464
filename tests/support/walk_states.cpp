#include "tests/support/walk_states.h"

#include "ui/screens/walk/plan/walk_words.h"

namespace test {

using namespace std::chrono_literals;

void start(Evening& e) {
  const bool said = e.views.walk.opening.flight_said;
  e.tap("START");
  if (!said) e.tap("None");
}

void through_gate(Evening& e) {
  start(e);
  for (const char* item : {"Respirator", "Eye protection", "Gloves", "Rinse water", "Nobody"})
    e.tap(item);
}

namespace {

// The action button keeps its id while its label follows the step.
ui::Target action_of(const Evening& e) {
  for (const ui::Target& t : e.touch().targets())
    if (t.id.starts_with("action: ")) return t;
  throw std::runtime_error("no action button; on the screen: " + e.all_words());
}

const std::vector<std::string> kLong{"Upper Orchard 12",   "Upper Orchard 13", "Quarry Gate East 3",
                                     "Quarry Gate East 4", "Long Meadow 101",  "Long Meadow 102"};

std::vector<WalkState> opening_states() {
  return {
      {"open-yards", {}, [](Evening& e) { e.tap("Other yard"); }, false},
      {"open-start", {}, [](Evening&) {}, false},
      {"open-warnings",
       {.colonies = 14, .cloths = 0, .respirator = false},
       [](Evening& e) {
         e.write(engine::ColonyChanged{.colony = e.colony(2), .supers_on = true});
         e.views.walk.opening.conditions.temperature = engine::Temperature{20};
         e.redraw();
         e.tap("Heavy");
       },
       false},
      {"open-no-kit", {.vaporizers = 0}, [](Evening&) {}, false},
      {"open-no-label", {.label = false}, [](Evening&) {}, false},
      {"open-temperature", {}, [](Evening& e) { e.tap("Temperature"), e.tap("1 more"); }, false},
      {"open-wind", {}, [](Evening& e) { e.tap("Wind"); }, false},
      {"open-kit", {.vaporizers = 2, .cloths = 5}, [](Evening& e) { e.tap("Carried"); }, false},
      {"open-label",
       {},
       [](Evening& e) {
         e.labels = {{.id = "a",
                      .region = "Test land",
                      .name = "Generic powder",
                      .checked = "2026-01-10",
                      .rules = test_rules(engine::Supers::Forbidden)}};
         e.tap("Label");
       },
       false},
      {"open-flight", {}, [](Evening& e) { e.tap("START"); }, false},
      {"open-left-on",
       {},
       [](Evening& e) {
         through_gate(e), act(e, 2);
         e.tap("Pause"), e.hold("Close the walk"), e.hold("Leave them shut"), e.tap("Done");
         e.views.walk.opening.yard = e.farm.yards.begin()->first;
         e.redraw();
       },
       false},
      {"gate",
       {},
       [](Evening& e) { e.tap("Wind"), e.tap("West"), start(e), e.tap("Gloves"); },
       false},
  };
}

std::vector<WalkState> walking_states() {
  return {
      {"set-first", {}, through_gate},
      {"wait-dwell", {}, [](Evening& e) { through_gate(e), act(e, 1), e.wait(20s); }},
      {"wait-long-enough", {}, [](Evening& e) { through_gate(e), act(e, 1), e.jump(70s); }},
      {"cover-due", {}, [](Evening& e) { through_gate(e), act(e, 1), e.jump(92s); }},
      {"cover-over", {}, [](Evening& e) { through_gate(e), act(e, 5), e.jump(150s); }},
      {"set-middle", {.colonies = 14, .cloths = 4}, [](Evening& e) { through_gate(e), act(e, 6); }},
      {"six-cloths",
       {.colonies = 14, .cloths = 6},
       [](Evening& e) { through_gate(e), act(e, 14), e.jump(30s); }},
      {"six-cloths-ready",
       {.colonies = 14, .cloths = 6},
       [](Evening& e) { through_gate(e), act(e, 14), e.jump(400s); }},
      {"eight-cloths",
       {.colonies = 14, .cloths = 8},
       [](Evening& e) { through_gate(e), act(e, 16), e.jump(9s); }},
      {"cloths-left",
       {.colonies = 4, .cloths = 6},
       [](Evening& e) { through_gate(e), act(e, 8), e.jump(500s); }},
      {"short-seal",
       {},
       [](Evening& e) {
         through_gate(e);
         for (int i = 0; i < 5; ++i) e.tap(action_of(e).label), e.jump(i % 2 == 0 ? 90s : 10s);
       }},
      {"wait-seal", {.colonies = 2}, [](Evening& e) { through_gate(e), act(e, 4), e.wait(5s); }},
      {"chosen", {}, [](Evening& e) { through_gate(e), act(e, 2), e.tap("A4"); }},
      {"chosen-again", {}, [](Evening& e) { through_gate(e), act(e, 6), e.tap("A1"); }},
      {"obstacle", {}, [](Evening& e) { through_gate(e), act(e, 1), e.tap("A3"); }},
      {"two-vaporizers",
       {.colonies = 8, .vaporizers = 2, .cloths = 4},
       [](Evening& e) { through_gate(e), act(e, 8), e.wait(9s); }},
      {"four-vaporizers",
       {.colonies = 12, .vaporizers = 4, .cloths = 8},
       [](Evening& e) { through_gate(e), act(e, 11), e.wait(9s); }},
      {"long-names",
       {.yard = "The Old Quarry behind Nether Fold", .names = kLong},
       [](Evening& e) { through_gate(e), act(e, 5), e.wait(3s); }},
      {"supers",
       {},
       [](Evening& e) {
         e.write(engine::ColonyChanged{.colony = e.colony(1), .supers_on = true});
         through_gate(e);
       }},
      {"paused",
       {},
       [](Evening& e) { through_gate(e), act(e, 1), e.tap("Pause"), e.tap("Pause the walk"); }},
  };
}

std::vector<WalkState> panel_states() {
  return {
      {"map",
       {.colonies = 14},
       [](Evening& e) { through_gate(e), act(e, 7), e.tap("Menu"), e.tap("Map"); },
       false},
      {"map-order",
       {.spots = false},
       [](Evening& e) { through_gate(e), act(e, 3), e.tap("Menu"), e.tap("Map"); },
       false},
      {"map-long",
       {.names = kLong},
       [](Evening& e) { through_gate(e), e.tap("Menu"), e.tap("Map"); },
       false},
      {"stopped",
       {},
       [](Evening& e) {
         through_gate(e), act(e, 1), e.wait(40s);
         e.tap("Problem"), e.tap("Battery empty");
         e.wait(30s);
       }},
      {"flying-here",
       {},
       [](Evening& e) {
         through_gate(e);
         e.tap("Flying"), e.tap("A1: heavy");
       }},
      {"leaks",
       {},
       [](Evening& e) {
         engine::ColonyChanged leaky{.colony = e.colony(1)};
         leaky.leaks = {engine::Leak::UpperEntrance, engine::Leak::DrainHole,
                        engine::Leak::ScreenedFloor, engine::Leak::Cracks};
         e.write(leaky);
         through_gate(e);
       }},
      {"pass-over", {}, [](Evening& e) { through_gate(e), e.tap("Skip"); }, false},
      {"flying", {}, [](Evening& e) { through_gate(e), e.tap("Flying"); }, false},
      {"mishap", {}, [](Evening& e) { through_gate(e), e.tap("Problem"); }, false},
      {"mishap-three", {}, [](Evening& e) { through_gate(e), act(e, 3), e.tap("Problem"); }, false},
      {"mishap-long",
       {.names = kLong},
       [](Evening& e) { through_gate(e), act(e, 3), e.tap("Problem"); },
       false},
      {"mishap-map",
       {},
       [](Evening& e) { through_gate(e), act(e, 3), e.tap("Problem"), e.tap("Another"); },
       false},
      {"saved",
       {},
       [](Evening& e) { through_gate(e), act(e, 3), e.tap("Problem"), e.tap("Seal leaking"); }},
      {"again",
       {},
       [](Evening& e) { through_gate(e), act(e, 2), e.jump(2000s), e.tap("Gloves"); },
       false},
      {"cautions", {}, [](Evening& e) { start(e), e.tap("Cautions"); }, false},
      {"dose-next", {}, [](Evening& e) { through_gate(e), act(e, 1), e.tap("Dose"); }, false},
      {"strike", {}, [](Evening& e) { through_gate(e), act(e, 1), e.tap("Undo last"); }, false},
      {"dose", {}, [](Evening& e) { through_gate(e), e.tap("Dose"); }, false},
      {"dose-over",
       {},
       [](Evening& e) { through_gate(e), e.tap("Dose"), e.tap("Label most"), e.tap("More"); },
       false},
      {"dose-keys",
       {},
       [](Evening& e) { through_gate(e), e.tap("Dose"), e.tap("Type it"); },
       false},
      {"close", {}, [](Evening& e) { through_gate(e), act(e, 4), e.tap("Pause"); }, false},
      {"first-aid", {}, [](Evening& e) { through_gate(e), e.tap("First aid"); }, false},
      {"end", {.colonies = 3}, [](Evening& e) { through_gate(e), act(e, 8); }, false},
      {"closed",
       {.colonies = 3},
       [](Evening& e) { through_gate(e), act(e, 8), e.tap("Close the walk"); },
       false},
      {"end-come-back",
       {.colonies = 5},
       [](Evening& e) {
         through_gate(e);
         e.tap("Skip"), e.tap("Queenless");
         act(e, 1), e.tap("Problem"), e.tap("Seal leaking");
         act(e, 1), e.tap("Flying"), e.tap("Yard: heavy");
         act(e, 8);
       },
       false},
  };
}

// A plan is worked out in the frame after the one that asks.
void open_plan(Evening& e) {
  e.redraw(), e.redraw();
  e.tap("Plan");
  for (int i = 0; i < 4; ++i) e.redraw();
}

// Led by the planner; fewer cloths than the whole seal would need.
std::vector<WalkState> led_states() {
  const Outfit few{.colonies = 6, .cloths = 2, .led = true};
  const Outfit many{.colonies = 14, .vaporizers = 2, .cloths = 6, .led = true};
  return {
      {"plan", few, open_plan, false},
      {"plan-many", many, open_plan, false},
      {"plan-no-waiting", few, [](Evening& e) { open_plan(e), e.tap("No waiting"); }, false},
      {"plan-cloths", few,
       [](Evening& e) {
         open_plan(e), e.tap("How many cloths?");
         for (int i = 0; i < 14; ++i) e.redraw();
       },
       false},
      {"led-first", few, through_gate},
      {"led-hold", few, [](Evening& e) { through_gate(e), act(e, 4), e.jump(5s); }},
      {"led-cloth-awaited", few, [](Evening& e) { through_gate(e), act(e, 5), e.jump(95s); }},
      {"led-not-recovering", many, [](Evening& e) { through_gate(e), act(e, 2), e.jump(300s); }},
      {"led-astray", many,
       [](Evening& e) { through_gate(e), act(e, 2), e.tap("Menu"), e.tap("Map"), e.tap("A9"); }},
      {"led-astray-vapor", many,
       [](Evening& e) { through_gate(e), act(e, 3), e.tap("Menu"), e.tap("Map"), e.tap("A1"); }},
      {"left-open", few, [](Evening& e) { through_gate(e), act(e, 2), e.jump(60h); }, false},
      {"still-shut", many,
       [](Evening& e) {
         through_gate(e), act(e, 12), e.jump(200s);
         e.tap("Pause"), e.hold("Close the walk");
       },
       false},
      {"still-shut-one", few,
       [](Evening& e) { through_gate(e), act(e, 2), e.tap("Pause"), e.hold("Close the walk"); },
       false},
      {"led-rest", many,
       [](Evening& e) { through_gate(e), act(e, 5), e.tap("Menu"), e.tap("Map"), e.tap("Plan"); },
       false},
      {"as-planned",
       {.colonies = 3, .led = true},
       [](Evening& e) {
         through_gate(e);
         while (!engine::complete(*e.walk())) act(e, 1);
         e.tap("As planned?");
       },
       false},
      {"as-done",
       {.colonies = 3, .led = true},
       [](Evening& e) {
         through_gate(e);
         while (!engine::complete(*e.walk())) act(e, 1);
         e.tap("As planned?"), e.tap("Done");
       },
       false},
  };
}

}  // namespace

// Waits as long as the step asks, then taps or, where the step wants it, holds.
void act(Evening& e, int times) {
  for (int i = 0; i < times; ++i) {
    const ui::Look look = e.look();
    const engine::Advice a = ui::advice_now(look, *e.walk(), e.views.walk.under_way.chosen);
    if (a.hold > engine::Ms{0}) e.jump(std::chrono::ceil<std::chrono::seconds>(a.hold));
    if (a.timer && !a.timer->due())
      e.jump(std::chrono::ceil<std::chrono::seconds>(a.timer->left()));
    const ui::Target action = action_of(e);
    if (action.hold)
      e.hold(action.label);
    else
      e.tap(action.label);
  }
}

const std::vector<WalkState>& walk_states() {
  static const std::vector<WalkState> all = [] {
    std::vector<WalkState> list = opening_states();
    for (const auto& more : {walking_states(), panel_states(), led_states()})
      list.insert(list.end(), more.begin(), more.end());
    return list;
  }();
  return all;
}

}  // namespace test
