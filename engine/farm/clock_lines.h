// engine/farm/clock_lines.h -- the entries of each tablet as far as their clocks follow from them.
// Inside engine/farm only.
#pragma once
#include <cassert>
#include <cstdint>
#include <map>
#include <optional>
#include <vector>

#include "engine/events/branches.h"
#include "engine/events/event.h"

namespace engine {

struct ClockItem {
  std::int64_t seq = 0;
  std::int64_t wall = 0;      // milliseconds since 1970, as believed; see `believed`
  std::uint32_t place = 0;    // which entry it is of those that were added
  std::int32_t reading = -1;  // which reading it says; below zero: none
  bool believed = true;       // false: the wall clock says nothing
};

// So many entries of a line.
struct ClockSeen {
  std::size_t line = 0;
  std::size_t end = 0;  // the first that was not read
};

// What a ClockFollowed says.
struct ClockReading {
  std::optional<std::int64_t> after;  // of earlier versions, which named no numbers
  std::vector<EntryRef> named;
  std::vector<ClockSeen> seen{};  // the same, as far as they are there
};

// What one tablet, or one side of its fork, wrote, by number.
struct ClockLine {
  DeviceId id;
  DeviceId tablet;
  const Branch* branch = nullptr;  // none: the tablet's own id
  std::vector<ClockItem> items{};
};

class ClockLines {
 public:
  explicit ClockLines(const Branches& branches) : branches_(branches) {}

  // Each entry once, in any order.
  void add(const Event& e);
  // After the last one: sorts the lines and each of them, and finds what the readings name.
  void close();

  [[nodiscard]] std::vector<ClockLine>& lines() { return lines_; }
  [[nodiscard]] const ClockReading& reading(const ClockItem& item) const {
    assert(item.reading >= 0 && static_cast<std::size_t>(item.reading) < readings_.size());
    return readings_[static_cast<std::size_t>(item.reading)];
  }
  [[nodiscard]] bool has_readings() const { return !readings_.empty(); }
  [[nodiscard]] std::size_t size() const { return size_; }
  // How far a line is read up to that number; nothing: there is no such line, or nothing of it.
  [[nodiscard]] std::optional<ClockSeen> up_to(const EntryRef& ref) const;

 private:
  ClockLine& line_of(DeviceId id);
  void sort_lines();

  const Branches& branches_;
  std::vector<ClockLine> lines_;
  std::map<DeviceId, std::size_t> index_;
  std::size_t last_ = 0;  // the line that was added to last
  std::vector<ClockReading> readings_;
  std::uint32_t size_ = 0;
};

}  // namespace engine
