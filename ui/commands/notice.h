// ui/commands/notice.h -- one page with one line, for a keeper who sees no terminal.
//
// Shown when the screens cannot open: the store is held by another program, is from a later
// version, or is damaged beyond opening. No farm, no journal, nothing is written. Where a new store
// can be begun it is offered, so that a keeper in a yard can record.
#pragma once
#include <string>

#include "ui/app/stage.h"

namespace ui {

class Notice {
 public:
  // `may_begin`: a held button begins a new store beside what cannot be opened.
  explicit Notice(std::string line, bool may_begin = false);

  // One turn on the stage; false once the keeper has chosen.
  [[nodiscard]] bool turn(Stage& stage, const engine::Stamp& now);
  [[nodiscard]] bool begins_anew() const { return begin_; }
  [[nodiscard]] const Touch& touch() const { return touch_; }

 private:
  void draw(const FrameAt& at);

  std::string line_;
  Theme theme_;
  Touch touch_;
  bool may_begin_;
  bool quit_ = false, begin_ = false;
};

}  // namespace ui
