// Every page of the screens around the walk, lying and upright, in every theme, in every month and
// on both halves of the world.
#include <doctest/doctest.h>
#include <fmt/format.h>
#include <imgui.h>

#include "tests/support/farm_states.h"
#include "tests/support/walk_states.h"
#include "ui/touch/faults.h"

namespace screen_faults_test {

namespace {

using test::FarmState;

// Far below the 65,536 corners that Dear ImGui's indices count, so that a page drawn on a larger
// screen or over a longer time still has room.
constexpr int kMostCorners = 40'000;

void check(const test::Evening& evening) {
  CHECK(evening.refused.empty());
  CHECK(evening.touch().draw()->VtxBuffer.Size < kMostCorners);
  for (const std::string& fault : ui::faults(evening.touch())) {
    INFO(fault);
    CHECK(false);
  }
}

// Reaching a page is the slow part: it is looked at there in each theme.
void check_in_themes(const FarmState& state, const test::Panel& panel) {
  test::Evening evening(state.outfit, panel);
  state.reach(evening);
  for (const ui::Theme& theme : {ui::sun_theme(), ui::dusk_theme(), ui::night_theme()}) {
    INFO(state.name, " ", theme.name);
    evening.wear(theme);
    check(evening);
  }
}

// Lines as long as those of the app.
const std::vector<ui::Trouble> kTroubles = {
    {ui::TroubleKind::Locked,
     "The journal is damaged: 1204 of 1210 entries can be read. Setup, About, Backups: go on with "
     "what can be read."},
    {ui::TroubleKind::DiskFull,
     "The tablet's disk is full. Taps are still saved: end the walk, then free some space."},
    {ui::TroubleKind::Clock,
     "The tablet's clock is behind: the last entry was made on 2026-08-14 at 19:41. Set the "
     "clock."},
    {ui::TroubleKind::NotShown,
     "12 entries of a later version are kept and not shown. Update this program."},
    {ui::TroubleKind::Contradictions,
     "3 things that tablets entered contradict each other. Other tablets, in the register: read "
     "both sides, then settle it."},
    {ui::TroubleKind::Offers,
     "2 settings of other tablets, such as a label, may be used here too. Other tablets, in the "
     "register: use it or leave it."}};

// Each thing that may be wrong alone, and all of them together.
void check_with_troubles(test::Evening& evening) {
  std::vector<std::vector<ui::Trouble>> sets;
  for (const ui::Trouble& trouble : kTroubles) sets.push_back({trouble});
  sets.push_back(kTroubles);
  for (const auto& set : sets) {
    INFO(set.front().line);
    evening.troubles = set;
    evening.redraw();
    check(evening);
  }
}

void check_troubles_on(const test::Panel& panel) {
  for (const FarmState& state : test::farm_states()) {
    INFO(state.name, " ", panel.name);
    test::Evening evening(state.outfit, panel);
    state.reach(evening);
    check_with_troubles(evening);
    evening.views.screen = ui::ScreenName::Alarms;
    check_with_troubles(evening);
  }
  for (const test::WalkState& state : test::walk_states()) {
    INFO(state.name, " ", panel.name);
    test::Evening evening(state.outfit, panel);
    state.reach(evening);
    check_with_troubles(evening);
  }
}

void check_all(const test::Panel& panel) {
  for (const FarmState& state : test::farm_states()) check_in_themes(state, panel);
}

struct Moment {
  int month;
  bool south;
};

std::vector<Moment> year() {
  std::vector<Moment> all;
  for (int month = 1; month <= 12; ++month)
    for (const bool south : {false, true}) all.push_back({month, south});
  return all;
}

// Reached once, looked at on every screen: small ones both ways, and a large one.
void check_at(const FarmState& state, const Moment& m) {
  test::Outfit outfit = state.outfit;
  outfit.began = fmt::format("2026-{:02}-14T19:40:00-07:00", m.month);
  outfit.home = engine::Place{m.south ? -36'000'000 : 45'000'000, -119'000'000};
  if (state.name == "today-trip-no-place") outfit.home.reset();
  INFO(state.name, ", month ", m.month, m.south ? ", south" : ", north");
  test::Evening evening(outfit, test::landscape());
  CHECK_NOTHROW(state.reach(evening));
  for (const test::Panel& panel : {test::landscape(), test::portrait(), test::large()}) {
    INFO(state.name, ", month ", m.month, m.south ? ", south, " : ", north, ", panel.name);
    evening.turn_to(panel);
    check(evening);
  }
}

// Plots over the season to come.
bool draws_the_season(const FarmState& state) {
  for (const char* with : {"counts-yard", "counts-growth", "courses-expect", "evenings"})
    if (state.name.starts_with(with)) return true;
  return false;
}

}  // namespace

TEST_CASE("lying, in every theme, no page has a small, tight, pale or cut thing") {
  check_all(test::landscape());
}
TEST_CASE("upright, in every theme, no page has a small, tight, pale or cut thing") {
  check_all(test::portrait());
}
TEST_CASE("lying, no page loses its room to what is wrong") {
  check_troubles_on(test::landscape());
}
TEST_CASE("upright, no page loses its room to what is wrong") {
  check_troubles_on(test::portrait());
}
TEST_CASE("what draws the season has no fault in any month, north or south, on any screen") {
  for (const FarmState& state : test::farm_states())
    for (const Moment& m : year())
      if (draws_the_season(state)) check_at(state, m);
}
// All pages in all months are the long run below; here months are dealt out to pages.
TEST_CASE("every page has no fault in two months of the year, on any screen") {
  std::size_t n = 0;
  for (const FarmState& state : test::farm_states())
    for (std::size_t k = 0; k < 2; ++k, ++n) check_at(state, year()[n * 7 % year().size()]);
}
// Some minutes: screen_tests -ns -tc="long:*".
TEST_CASE("long: every page has no fault in any month, north or south, on any screen" *
          doctest::skip()) {
  for (const FarmState& state : test::farm_states())
    for (const Moment& m : year()) check_at(state, m);
}

}  // namespace screen_faults_test
