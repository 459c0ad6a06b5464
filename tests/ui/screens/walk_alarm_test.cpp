#include "ui/screens/walk/now/walk_alarm.h"

#include <doctest/doctest.h>

#include "tests/support/walk_states.h"

namespace walk_alarm_test {

using namespace std::chrono_literals;
using engine::Ms;

namespace {

ui::DueTimer due(int colony, ui::DueKind kind) {
  return {.colony = test::id<engine::ColonyId>(colony), .kind = kind, .elapsed = 600s};
}

}  // namespace

TEST_CASE("the tone comes when a timer becomes due, and every 15 s while a dwell is") {
  struct Row {
    std::string name;
    Ms at;
    std::vector<ui::DueTimer> timers;
    bool want;
  };
  const auto dwell = due(1, ui::DueKind::Dwell), seal = due(2, ui::DueKind::Seal);
  const Row rows[] = {{"nothing due", 0s, {}, false},
                      {"dwell becomes due", 1s, {dwell}, true},
                      {"still due", 15'999ms, {dwell}, false},
                      {"15 s later", 16s, {dwell}, true},
                      {"a seal joins", 20s, {dwell, seal}, true},
                      {"only the seal is left", 40s, {seal}, false},
                      {"a seal does not nag", 400s, {seal}, false},
                      {"none", 401s, {}, false},
                      {"the same dwell anew", 402s, {dwell}, true},
                      {"a seal that was away does not sound anew", 403s, {seal}, false}};
  ui::AlarmMemory memory;
  for (const Row& r : rows) {
    INFO(r.name);
    CHECK(ui::alarm_wanted(memory, r.timers, r.at) == r.want);
  }
}

TEST_CASE("a cloth past its time calls nobody while vapor is to come") {
  test::Evening e({.colonies = 3});
  CHECK(ui::due_timers(e.farm, e.device(), e.now()).empty());
  test::through_gate(e);
  test::act(e, 2);
  e.jump(700s);
  CHECK(ui::due_timers(e.farm, e.device(), e.now()).empty());  // A2 and A3 are still to do
  CHECK(e.sees("ready"));
  test::act(e, 1);
  e.jump(700s);
  const auto timers = ui::due_timers(e.farm, e.device(), e.now());
  REQUIRE(timers.size() == 1);
  CHECK(ui::words(timers[0], e.farm) == "Lift from A2");
}

TEST_CASE("cloths call once taking them is all there is to do") {
  test::Evening e({.colonies = 2});
  test::through_gate(e);
  test::act(e, 4);
  CHECK(ui::due_timers(e.farm, e.device(), e.now()).empty());
  e.jump(700s);
  const auto timers = ui::due_timers(e.farm, e.device(), e.now());
  REQUIRE(timers.size() == 2);
  CHECK(ui::words(timers[0], e.farm) == "Take the cloth off A1");
}

TEST_CASE("a timer that only a changed clock could tell says so") {
  test::Evening e;
  test::through_gate(e);
  test::act(e, 1);
  engine::Stamp earlier = e.now();
  earlier.boot = "another";
  earlier.at -= 1h;
  const auto timers = ui::due_timers(e.farm, e.device(), earlier);
  REQUIRE(timers.size() == 1);
  CHECK_FALSE(timers[0].sure);
  CHECK(ui::words(timers[0], e.farm) == "Clock was changed: check A1 yourself");
}

TEST_CASE("nobody is called to lift while every cloth has to lie where it is") {
  test::Evening e({.colonies = 3, .cloths = 1, .led = true});
  test::through_gate(e);
  test::act(e, 2);
  e.tap("A2 is set");  // at once, though the plan would wait
  e.jump(120s);
  CHECK_FALSE(e.sees("Lift from A2"));
  e.jump(480s);
  CHECK(e.sees("Lift from A2"));
}

TEST_CASE("a setting that was put off calls when its time has come, once") {
  test::Evening e({.colonies = 3, .cloths = 1, .led = true});
  test::through_gate(e);
  test::act(e, 2);
  e.wait(5s);
  CHECK(e.sees("wait "));
  CHECK_FALSE(e.sees("Set A2 now"));
  e.wait(600s);
  CHECK_FALSE(e.sees("wait "));
  CHECK(e.sees("Set A"));
  CHECK(e.sees(" now"));
}

}  // namespace walk_alarm_test
