// ui/commands/targets_json.h -- what a person can see and touch now, as JSON for checks.
#pragma once
#include <string>

#include "ui/touch/touch.h"

namespace ui {

// {"screen": {...}, "targets": [{"label", "enabled", "hold", "px": {x, y, w, h}, "mm": {...}}],
//  "texts": [{"text", "px", "mm", "colour", "ground", "contrast", "font_px", "cut"}],
//  "tones": how often the alarm has sounded}
[[nodiscard]] std::string targets_json(const Touch& touch, int tones);

}  // namespace ui
