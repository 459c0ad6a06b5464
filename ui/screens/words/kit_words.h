// ui/screens/words/kit_words.h -- what the kit asks for, in words.
#pragma once
#include <string>
#include <vector>

#include "engine/kit/upkeep.h"
#include "ui/screens/base/screen.h"

namespace ui {

// Cleanings due, lots near or past their expiry.
[[nodiscard]] std::vector<std::string> kit_asks(const Look& look);

}  // namespace ui
