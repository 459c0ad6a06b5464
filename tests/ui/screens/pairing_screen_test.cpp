// Other tablets, Pair tablets: words and code, and what is held back until the keeper decides.
#include <doctest/doctest.h>

#include <chrono>

#include "tests/support/farm_states.h"

namespace pairing_screen_test {

using test::Evening;

namespace {

const char* const kStranger = "0191ffff-0000-7abc-8def-001122334455";

ui::TrustSeen trust_of_a_stranger() {
  ui::TrustSeen trust{.closed = true,
                      .words = "acorn barley cedar delta ember falcon garden harbor"};
  trust.code.assign(29, std::vector<bool>(29, true));
  trust.held.push_back({.tablet = kStranger,
                        .shown = "22334455",
                        .entries = 15,
                        .from = 4,
                        .last = 18,
                        .why = "not paired",
                        .would_do = {"offers another dose for a brood box: 1 g dihydrate -> 9 g "
                                     "dihydrate",
                                     "strikes 14 treatments of 2026-08-14"}});
  return trust;
}

// Through Register to the page, whatever was open.
void open_tablets(Evening& e) {
  e.tap("Register");
  while (!e.has("Other tablets") && e.has("NEXT")) e.tap("NEXT");
  e.tap("Other tablets");
}

}  // namespace

TEST_CASE("what is held back is shown by what it would do, and taken in or kept out by a hold") {
  for (const bool take_in : {true, false}) {
    Evening e;
    e.trust = trust_of_a_stranger();
    open_tablets(e);
    e.tap("Tablet 22334455 is held back");
    CHECK(e.sees("strikes 14 treatments of 2026-08-14"));
    CHECK(e.sees("1 g dihydrate -> 9 g"));
    const std::size_t before = e.farm.log.size();
    e.hold(take_in ? "Take in" : "Keep out");
    REQUIRE(e.farm.log.size() == before + 1);
    const engine::Event last = e.farm.log.back()->event;
    if (take_in) {
      const auto& trusted = std::get<engine::TabletTrusted>(last.body);
      CHECK(trusted.tablet == kStranger);
      CHECK(trusted.through == 18);
    } else {
      const auto& refused = std::get<engine::TabletRefused>(last.body);
      CHECK(refused.tablet == kStranger);
      CHECK(refused.from == 4);
    }
  }
}

TEST_CASE("later leaves everything as it is") {
  Evening e;
  e.trust = trust_of_a_stranger();
  open_tablets(e);
  e.tap("Tablet 22334455 is held back");
  const std::size_t before = e.farm.log.size();
  e.tap("Later");
  CHECK(e.farm.log.size() == before);
  CHECK(e.has("Pair tablets"));
}

TEST_CASE("the page has this tablet's words, and asks for a key where there is none") {
  Evening e;
  open_tablets(e);
  e.tap("Pair tablets");
  e.wait(std::chrono::seconds(1));
  bool asked = false;
  for (const ui::Ask& ask : e.outside) asked = asked || std::holds_alternative<ui::ShowWords>(ask);
  CHECK(asked);
  e.trust = trust_of_a_stranger();
  e.redraw();
  CHECK(e.sees("acorn barley cedar"));
  CHECK(e.has("Type their words"));
}

}  // namespace pairing_screen_test
