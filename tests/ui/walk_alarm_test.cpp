#include "ui/screens/walk_alarm.h"

#include <doctest/doctest.h>

#include "tests/ui/walk_states.h"

using namespace std::chrono_literals;
using engine::Ms;

namespace {

ui::DueTimer due(int colony, bool dwell) {
  return {.colony = test::id<engine::ColonyId>(colony), .dwell = dwell, .elapsed = 600s};
}

}  // namespace

TEST_CASE("the tone comes when a timer becomes due, and every 15 s while a dwell is") {
  struct Row {
    std::string name;
    Ms at;
    std::vector<ui::DueTimer> timers;
    bool want;
  };
  const auto dwell = due(1, true), seal = due(2, false);
  const Row rows[] = {{"nothing due", 0s, {}, false},
                      {"dwell becomes due", 1s, {dwell}, true},
                      {"still due", 15'999ms, {dwell}, false},
                      {"15 s later", 16s, {dwell}, true},
                      {"a seal joins", 20s, {dwell, seal}, true},
                      {"only the seal is left", 40s, {seal}, false},
                      {"a seal does not nag", 400s, {seal}, false},
                      {"none", 401s, {}, false},
                      {"the same dwell anew", 402s, {dwell}, true}};
  ui::AlarmMemory memory;
  for (const Row& r : rows) {
    INFO(r.name);
    CHECK(ui::alarm_wanted(memory, r.timers, r.at) == r.want);
  }
}

TEST_CASE("due timers of the walk under way, dwells first") {
  test::Evening e;
  CHECK(ui::due_timers(e.farm, e.device(), e.now()).empty());
  test::through_gate(e);
  test::act(e, 3);
  CHECK(ui::due_timers(e.farm, e.device(), e.now()).empty());
  e.jump(700s);
  const auto timers = ui::due_timers(e.farm, e.device(), e.now());
  REQUIRE(timers.size() == 2);
  CHECK(ui::words(timers[0], e.farm) == "Lift from A2");
  CHECK(ui::words(timers[1], e.farm).starts_with("A1 closed 1"));
  CHECK(ui::words(timers[1], e.farm).ends_with(": take the cloth"));
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
