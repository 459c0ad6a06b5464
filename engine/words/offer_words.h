// engine/words/offer_words.h -- what another tablet has set for the outfit, beside what is set
// here, for the keeper to decide (engine/farm/setups.h).
#pragma once
#include <string>
#include <vector>

#include "engine/farm/setups.h"

namespace engine {

// "Tablet 3f9a1c20 uses another label: 2 g dihydrate here, 1 g dihydrate there for a brood box."
[[nodiscard]] std::string words(const Offer& offer, const Farm& farm);

// A line for each number and word that would be another here, old and new side by side.
[[nodiscard]] std::vector<std::string> differences(const Offer& offer, const Farm& farm);

}  // namespace engine
