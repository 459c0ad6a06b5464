// Every page of a walk in Spanish: nothing cut, nothing over another thing, lying and upright. The
// states are reached in English, so that they are those of walk_screen_test; then the page is drawn
// anew in Spanish.
#include <doctest/doctest.h>

#include "storage/language/mo_catalogue.h"
#include "tests/support/walk_seen.h"
#include "ui/touch/faults.h"

namespace walk_in_spanish_test {

namespace {

class Spoken {
 public:
  explicit Spoken(const engine::Catalogue& catalogue) { engine::speak(&catalogue); }
  Spoken(const Spoken&) = delete;
  Spoken& operator=(const Spoken&) = delete;
  ~Spoken() { engine::speak(nullptr); }
};

void check_in(const engine::Catalogue& language, const test::WalkState& state,
              const test::Panel& panel) {
  test::Evening e(state.outfit, panel);
  state.reach(e);
  const Spoken spoken(language);
  INFO(state.name, " ", panel.name);
  e.wear(ui::sun_theme());
  for (const std::string& fault : ui::faults(e.touch())) FAIL_CHECK(fault);
}

}  // namespace

TEST_CASE("every page of a walk has no fault in Spanish, on any screen") {
  const auto spanish = storage::read_catalogue(DUSKWALK_TRANSLATIONS, "es");
  REQUIRE(spanish.ok());
  for (const test::Panel& panel : {test::landscape(), test::portrait(), test::large()})
    for (const test::WalkState& state : test::walk_states())
      check_in(*spanish.value(), state, panel);
}

}  // namespace walk_in_spanish_test
