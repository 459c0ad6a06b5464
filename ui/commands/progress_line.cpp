#include "ui/commands/progress_line.h"

#include <fmt/format.h>
#include <unistd.h>

#include <cstdio>

namespace ui {

std::string progress_words(std::string_view doing, std::size_t done, std::size_t of) {
  if (of == 0) return fmt::format("{} ...", doing);
  return fmt::format("{}: {} %", doing, 100 * done / of);
}

ProgressLine::ProgressLine() : terminal_(::isatty(STDERR_FILENO) != 0) {}

storage::Progress ProgressLine::progress() {
  if (!terminal_) return {};
  return
      [this](std::string_view doing, std::size_t done, std::size_t of) { show(doing, done, of); };
}

void ProgressLine::show(std::string_view doing, std::size_t done, std::size_t of) {
  std::string line = progress_words(doing, done, of);
  if (line == shown_) return;
  fmt::print(stderr, "\r\x1b[K{}", line);
  std::fflush(stderr);
  shown_ = std::move(line);
}

void ProgressLine::end() {
  if (shown_.empty()) return;
  fmt::print(stderr, "\r\x1b[K");
  std::fflush(stderr);
  shown_.clear();
}

}  // namespace ui
