// Every page of the screens around the walk, lying and upright, in both themes.
#include <doctest/doctest.h>

#include "tests/support/farm_states.h"
#include "ui/touch/faults.h"

namespace screen_faults_test {

namespace {

// Reaching a page is the slow part: it is looked at there in each theme.
void check_all(const test::Panel& panel) {
  for (const test::FarmState& state : test::farm_states()) {
    test::Evening evening(state.outfit, panel);
    state.reach(evening);
    for (const ui::Theme& theme : {ui::sun_theme(), ui::dusk_theme()}) {
      INFO(state.name, " ", theme.name);
      evening.wear(theme);
      CHECK(evening.refused.empty());
      for (const std::string& fault : ui::faults(evening.touch())) {
        INFO(fault);
        CHECK(false);
      }
    }
  }
}

}  // namespace

TEST_CASE("lying, in both themes, no page has a small, tight, pale or cut thing") {
  check_all(test::landscape());
}
TEST_CASE("upright, in both themes, no page has a small, tight, pale or cut thing") {
  check_all(test::portrait());
}

}  // namespace screen_faults_test
