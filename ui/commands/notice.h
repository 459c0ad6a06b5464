// ui/commands/notice.h -- one page with one line, for a keeper who sees no terminal.
//
// Shown when the screens cannot open: the store is held by another program, is from a later
// version, or is damaged beyond opening. No farm, no journal, nothing is written.
#pragma once
#include <string>

#include "ui/app/stage.h"

namespace ui {

class Notice {
 public:
  explicit Notice(std::string line);

  // One turn on the stage; false once the keeper has tapped "Quit".
  [[nodiscard]] bool turn(Stage& stage, const engine::Stamp& now);
  [[nodiscard]] const Touch& touch() const { return touch_; }

 private:
  void draw(const FrameAt& at);

  std::string line_;
  Theme theme_;
  Touch touch_;
  bool quit_ = false;
};

}  // namespace ui
