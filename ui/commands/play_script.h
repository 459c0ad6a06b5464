// ui/commands/play_script.h -- a play script as a list of steps. Pure.
#pragma once
#include <string>
#include <string_view>
#include <vector>

#include "engine/core/instant.h"
#include "engine/core/status.h"

namespace ui {

enum class Act { Screen, At, Wait, Tap, Hold, See, Miss, Shot, Targets, StickIn, StickOut, Crash };

struct Step {
  std::size_t line = 0;  // from 1
  Act act = Act::Wait;
  std::string words;    // a label, a text, a name, a folder
  engine::Stamp at;     // At
  engine::Ms length{};  // Wait
  int width = 0, height = 0;
  float inches = 0;  // Screen
};

// BadInput names the line and what is wrong with it.
[[nodiscard]] engine::Result<std::vector<Step>> read_play_script(std::string_view text);

}  // namespace ui
