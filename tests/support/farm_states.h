// tests/support/farm_states.h -- every page of the screens around the walk, reached by taps, over
// an invented farm in the middle of its season.
#pragma once
#include <functional>
#include <string>
#include <vector>

#include "tests/support/screen_harness.h"

namespace test {

struct FarmState {
  std::string name;
  std::function<void(Evening&)> reach;
  Outfit outfit{};
};
[[nodiscard]] const std::vector<FarmState>& farm_states();

// The pages behind the register, in book_states.cpp; part of farm_states().
[[nodiscard]] std::vector<FarmState> book_states();

// Turns the pages of a list until the label is there, and taps it.
void tap_listed(Evening& e, const std::string& label);
// Season (or crowd), then these taps one after another.
using Reach = std::function<void(Evening&)>;
[[nodiscard]] Reach taps(std::vector<std::string> labels_in_turn);
[[nodiscard]] Reach crowded(std::vector<std::string> labels_in_turn);
[[nodiscard]] ui::StickSeen stick();
[[nodiscard]] engine::Date day_from(const Evening& e, int days);

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
