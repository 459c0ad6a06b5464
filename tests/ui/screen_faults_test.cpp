// Every page of the screens around the walk, lying and upright, in both themes.
#include <doctest/doctest.h>

#include "tests/ui/farm_states.h"
#include "ui/touch/faults.h"

namespace {

void check_all(const test::Panel& panel, const ui::Theme& theme) {
  for (const test::FarmState& state : test::farm_states()) {
    INFO(state.name);
    test::Evening evening(state.outfit, panel, theme);
    state.reach(evening);
    evening.redraw();
    CHECK(evening.refused.empty());
    for (const std::string& fault : ui::faults(evening.touch())) {
      INFO(fault);
      CHECK(false);
    }
  }
}

}  // namespace

TEST_CASE("lying, in the sun theme, no page has a small, tight, pale or cut thing") {
  check_all(test::landscape(), ui::sun_theme());
}
TEST_CASE("lying, in the dusk theme, no page has a small, tight, pale or cut thing") {
  check_all(test::landscape(), ui::dusk_theme());
}
TEST_CASE("upright, in the sun theme, no page has a small, tight, pale or cut thing") {
  check_all(test::portrait(), ui::sun_theme());
}
TEST_CASE("upright, in the dusk theme, no page has a small, tight, pale or cut thing") {
  check_all(test::portrait(), ui::dusk_theme());
}
