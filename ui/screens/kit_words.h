// ui/screens/kit_words.h -- what is short for a walk and what the kit asks for, in words.
#pragma once
#include <string>
#include <vector>

#include "engine/kit/upkeep.h"
#include "ui/screens/screen.h"

namespace ui {

// What a walk through these colonies lacks; empty: enough. Needs the label's grams.
[[nodiscard]] std::vector<std::string> lacking(const Look& look,
                                               const std::vector<const engine::Colony*>& colonies);
// Cleanings due, lots near or past their expiry.
[[nodiscard]] std::vector<std::string> kit_asks(const Look& look);

}  // namespace ui
