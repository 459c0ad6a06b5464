// tests/support/walk_states.h -- every state of the walk screens, reached by taps as a keeper
// would.
#pragma once
#include <functional>
#include <string>
#include <vector>

#include "tests/support/screen_harness.h"

namespace test {

struct WalkState {
  std::string name;
  Outfit outfit;
  std::function<void(Evening&)> reach;
  bool walking = true;  // the walk itself with its action button
};
[[nodiscard]] const std::vector<WalkState>& walk_states();

// From the opening page: START, "None" where nobody has said whether bees fly, and the five
// confirmations.
void start(Evening& e);
void through_gate(Evening& e);
// The walk's own order up to that many taps of the action button, each when it is due.
void act(Evening& e, int times);

}  // namespace test
