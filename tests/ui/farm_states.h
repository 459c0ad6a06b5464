// tests/ui/farm_states.h -- every page of the screens around the walk, reached by taps, over an
// invented farm in the middle of its season.
#pragma once
#include <functional>
#include <string>
#include <vector>

#include "tests/ui/screen_harness.h"

namespace test {

struct FarmState {
  std::string name;
  std::function<void(Evening&)> reach;
  Outfit outfit{};
};
[[nodiscard]] const std::vector<FarmState>& farm_states();

// Five yards in mid-season: a course under way, colonies to come back to, counts, kit in use. Ends
// on Today, five days after the evening began.
void season(Evening& e);
// After season(): a walk of A3 alone that was closed while the cloth lay there.
void leave_covered(Evening& e);
// After season(): Heron Weir counted, walked once and counted two weeks later.
void walked_and_counted(Evening& e);
// Starts the walk that is about to be opened; no bees are flying.
void start_walk(Evening& e);
// 60 yards, 40 colonies in the first, every name 40 letters.
void crowd(Evening& e);
// Two label profiles to choose from, as their files give them.
void labels(Evening& e);

}  // namespace test
