// ui/commands/progress_line.h -- long work shown on a terminal: one line on standard error that is
// written over and gone at the end, and nothing of what takes less than a second. Nothing where
// standard error is no terminal, so that scripts and logs see only what is said in the end.
#pragma once
#include <functional>
#include <string>
#include <string_view>

#include "engine/core/instant.h"
#include "storage/disk/progress.h"

namespace ui {

class ProgressLine {
 public:
  // `since_boot` is the clock that the rate and the time to go are reckoned by.
  explicit ProgressLine(std::function<engine::Ms()> since_boot);
  ~ProgressLine() { end(); }
  ProgressLine(const ProgressLine&) = delete;
  ProgressLine& operator=(const ProgressLine&) = delete;

  [[nodiscard]] storage::Progress progress();
  void end();  // takes the line away; before anything is printed

 private:
  void show(std::string_view doing, std::size_t done, std::size_t of);

  std::function<engine::Ms()> since_boot_;
  bool terminal_;
  engine::Ms started_{}, said_at_{};  // the work that is done now; the line
  std::string doing_, shown_;
};

// "taking in: 42 %, 1200 a second, 31 s to go"; without a number while nobody knows how much it is,
// and without a rate for the first second.
[[nodiscard]] std::string progress_words(std::string_view doing, std::size_t done, std::size_t of,
                                         engine::Ms taken);

}  // namespace ui
