// ui/commands/play_script.h -- a play script as a list of steps. Pure.
//
// A `#` at the start of a line or after white space starts a comment, so a label that itself holds
// " #" cannot be named whole; any part of it before that can.
//
// Named PlayStep and PlayAct because the screens have a Step and an Act of their own in this
// namespace: two types of one name would be undefined behaviour at link time.
#pragma once
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "engine/core/instant.h"
#include "engine/core/status.h"

namespace ui {

enum class PlayAct {
  Screen,
  At,
  Wait,
  Tap,
  Hold,
  See,
  Miss,
  Hear,
  Shot,
  Targets,
  StickIn,
  StickOut,
  Read,
  Scan,
  Crash
};

struct PlayStep {
  std::size_t line = 0;  // from 1
  PlayAct act = PlayAct::Wait;
  std::string words;    // a label, a text, a name, a folder
  engine::Stamp at;     // At
  engine::Ms length{};  // Wait
  int width = 0, height = 0;
  float inches = 0;  // Screen
};

// BadInput names the line and what is wrong with it.
[[nodiscard]] engine::Result<std::vector<PlayStep>> read_play_script(std::string_view text);

// The folder of the stick that is in before step `next` (from 0) is played; none: it is out.
[[nodiscard]] std::optional<std::string> stick_before(const std::vector<PlayStep>& steps,
                                                      std::size_t next);

}  // namespace ui
