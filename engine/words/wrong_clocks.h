// engine/words/wrong_clocks.h -- whose clock is wrong, in a line for the keeper.
#pragma once
#include <string>

#include "engine/farm/common_clock.h"

namespace engine {

// "The clock of tablet 3f9a1c20 says 9999-12-31 (entry 17). It does not decide which entry is the
// last one; set that tablet's clock." Days are those of UTC.
[[nodiscard]] std::string words(const WrongClock& wrong);

}  // namespace engine
