#include "engine/farm/common_clock.h"

#include <algorithm>
#include <cassert>

#include "engine/farm/clock_doubts.h"
#include "engine/farm/clock_lines.h"

namespace engine {
namespace {

constexpr std::int64_t kFirst = kFirstCredible.time_since_epoch().count();
constexpr std::int64_t kLast = kLastCredible.time_since_epoch().count();

// Counts the clocks of all lines, each line as far as what it waits for has been counted.
class Counting {
 public:
  Counting(ClockLines& lines, std::vector<std::int64_t>& clocks)
      : all_(lines), clocks_(clocks), next_(lines.lines().size(), 0) {}

  void run() {
    for (;;) {
      bool moved = false, left = false;
      for (std::size_t i = 0; i < next_.size(); ++i) {
        moved = advance(i) || moved;
        left = left || next_[i] < all_.lines()[i].items.size();
      }
      if (!left) return;
      if (!moved) take(smallest_waiting(), true);
    }
  }

 private:
  bool advance(std::size_t line) {
    const std::size_t before = next_[line];
    const std::size_t size = all_.lines()[line].items.size();
    while (next_[line] < size && ready(line)) take(line, false);
    return next_[line] != before;
  }

  // What stands before the first entry of a fork's side.
  [[nodiscard]] std::optional<ClockSeen> trunk(const ClockLine& line) const {
    if (line.branch == nullptr) return std::nullopt;
    return all_.up_to({line.branch->after, line.branch->from - 1});
  }
  [[nodiscard]] bool counted(const ClockSeen& seen) const { return next_[seen.line] >= seen.end; }

  [[nodiscard]] bool ready(std::size_t i) const {
    const ClockLine& line = all_.lines()[i];
    if (next_[i] == 0)
      if (const auto before = trunk(line); before && !counted(*before)) return false;
    const ClockItem& item = line.items[next_[i]];
    if (item.reading < 0) return true;
    const auto& seen = all_.reading(item).seen;
    return std::all_of(seen.begin(), seen.end(),
                       [&](const ClockSeen& s) { return s.line == i || counted(s); });
  }

  [[nodiscard]] std::int64_t last_clock(const ClockSeen& seen) const {
    return clocks_[all_.lines()[seen.line].items[seen.end - 1].place];
  }

  // What the line's next entry cannot come before.
  [[nodiscard]] std::int64_t base(std::size_t i) const {
    const ClockLine& line = all_.lines()[i];
    if (next_[i] > 0) return last_clock({i, next_[i]});
    const auto before = trunk(line);
    return before && counted(*before) ? last_clock(*before) : kFirst;
  }

  // `circular`: what it waits for waits for it in turn, and is left out.
  void take(std::size_t i, bool circular) {
    assert(next_[i] < all_.lines()[i].items.size());
    const ClockItem& item = all_.lines()[i].items[next_[i]];
    std::int64_t clock = base(i);
    if (item.believed) clock = std::max(clock, item.wall);
    if (item.reading >= 0) {
      const ClockReading& reading = all_.reading(item);
      if (reading.after && *reading.after <= kLast) clock = std::max(clock, *reading.after + 1);
      for (const ClockSeen& seen : reading.seen)
        if (seen.line != i && (!circular || counted(seen)))
          clock = std::max(clock, last_clock(seen) + 1);
    }
    clocks_[item.place] = clock;
    ++next_[i];
  }

  [[nodiscard]] std::size_t smallest_waiting() const {
    std::optional<std::size_t> smallest;
    for (std::size_t i = 0; i < next_.size(); ++i) {
      const auto& lines = all_.lines();
      if (next_[i] == lines[i].items.size()) continue;
      if (!smallest || lines[i].id < lines[*smallest].id) smallest = i;
    }
    assert(smallest);  // asked only while an entry waits
    return *smallest;
  }

  ClockLines& all_;
  std::vector<std::int64_t>& clocks_;
  std::vector<std::size_t> next_;  // of each line, the first that is not counted
};

}  // namespace

CommonClock::CommonClock(const Branches& branches)
    : lines_(std::make_unique<ClockLines>(branches)) {}
CommonClock::~CommonClock() = default;

void CommonClock::add(const Event& e) { lines_->add(e); }

void CommonClock::count() {
  assert(lines_ != nullptr);  // once
  lines_->close();
  ClockDoubts doubts(*lines_);
  wrong_ = doubts.settle();
  in_doubt_ = doubts.any();
  clocks_.resize(lines_->size());
  Counting(*lines_, clocks_).run();
  for (const ClockLine& line : lines_->lines()) last_[line.id] = clocks_[line.items.back().place];
  lines_.reset();
}

}  // namespace engine
