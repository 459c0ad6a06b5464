// ui/screens/base/brood_asked.h -- what somebody says who is asked for the brood of some colonies.
#pragma once
#include <array>
#include <optional>
#include <vector>

#include "engine/events/event.h"

namespace ui {

// Eggs and larvae are asked for too: from them there are caps within days.
struct BroodAnswer {
  const char* label;
  const char* second;
  std::optional<engine::BroodFact> what;  // none: nobody looked, and nothing is noted
};
inline constexpr std::array<BroodAnswer, 4> kBroodAnswers{
    {{"No capped brood, no eggs, no larvae", "in none of them", engine::BroodFact::NoBrood},
     {"No capped brood, but eggs or larvae", "it counts as brood: caps follow within days",
      engine::BroodFact::BroodSeen},
     {"Capped brood", "", engine::BroodFact::BroodSeen},
     {"Not looked", "it stays unknown: check your label", std::nullopt}}};

// The note that the answer makes; none where nobody looked.
[[nodiscard]] std::optional<engine::BroodNoted> brood_note(const BroodAnswer& answer,
                                                           std::vector<engine::ColonyId> colonies,
                                                           engine::Date on);

}  // namespace ui
