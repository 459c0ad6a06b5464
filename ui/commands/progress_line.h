// ui/commands/progress_line.h -- long work shown on a terminal: one line on standard error that is
// written over and gone at the end. Nothing where standard error is no terminal, so that scripts
// and logs see only what is said in the end.
#pragma once
#include <string>
#include <string_view>

#include "storage/disk/progress.h"

namespace ui {

class ProgressLine {
 public:
  ProgressLine();
  ~ProgressLine() { end(); }
  ProgressLine(const ProgressLine&) = delete;
  ProgressLine& operator=(const ProgressLine&) = delete;

  [[nodiscard]] storage::Progress progress();
  void end();  // takes the line away; before anything is printed

 private:
  void show(std::string_view doing, std::size_t done, std::size_t of);

  bool terminal_;
  std::string shown_;
};

// "taking in: 42 %"; without a number while nobody knows how much it is.
[[nodiscard]] std::string progress_words(std::string_view doing, std::size_t done, std::size_t of);

}  // namespace ui
