#include "ui/commands/progress_line.h"

#include <fmt/format.h>
#include <unistd.h>

#include <cstdio>

namespace ui {

namespace {

constexpr engine::Ms kSoon{1000};    // what is done by then needs no line
constexpr engine::Ms kBetween{200};  // two lines

std::string time_to_go(engine::Ms left) {
  const auto seconds = std::chrono::ceil<std::chrono::seconds>(left).count();
  if (seconds < 100) return fmt::format("{} s", seconds);
  return fmt::format("{} min", (seconds + 59) / 60);
}

}  // namespace

std::string progress_words(std::string_view doing, std::size_t done, std::size_t of,
                           engine::Ms taken) {
  if (of == 0) return fmt::format("{} ...", doing);
  std::string words = fmt::format("{}: {} %", doing, 100 * done / of);
  if (taken < kSoon || done == 0 || done > of) return words;
  const double per_ms = static_cast<double>(done) / static_cast<double>(taken.count());
  const engine::Ms left{static_cast<std::int64_t>(static_cast<double>(of - done) / per_ms)};
  return words + fmt::format(", {:.0f} a second, {} to go", per_ms * 1000, time_to_go(left));
}

ProgressLine::ProgressLine(std::function<engine::Ms()> since_boot)
    : since_boot_(std::move(since_boot)),
      terminal_(::isatty(STDERR_FILENO) != 0),
      started_(since_boot_()) {}

storage::Progress ProgressLine::progress() {
  if (!terminal_) return {};
  return
      [this](std::string_view doing, std::size_t done, std::size_t of) { show(doing, done, of); };
}

void ProgressLine::show(std::string_view doing, std::size_t done, std::size_t of) {
  const engine::Ms now = since_boot_();
  if (doing != doing_) {
    doing_ = doing;
    started_ = now;
  }
  if (now - started_ < kSoon || now - said_at_ < kBetween) return;
  said_at_ = now;
  std::string line = progress_words(doing, done, of, now - started_);
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
