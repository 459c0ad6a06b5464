// ui/platform/touch_times.h -- when a finger came down and was lifted, by the kernel's own clock.
//
// SDL stamps an event when it is asked for it, so what a finger did while the program was busy
// seems to happen afterwards. The kernel stamps it when the panel told it. This reads the stamps
// out of what InputNodes reads beside SDL, for panels that follow the kernel's multi-touch
// protocol B (its document "Multi-touch (MT) Protocol"): a finger has a tracking id, which is also
// SDL's finger id. What is missing here (another kind of panel, an overflow) is not known.
#pragma once
#include <linux/input.h>

#include <cstddef>
#include <cstdint>
#include <deque>
#include <map>
#include <optional>
#include <span>

namespace ui {

// Of one node: which finger is in which slot.
class TouchSlots {
 public:
  struct Change {
    std::int64_t finger = 0;
    bool down = false;
    std::int64_t at_ms = 0;
  };
  // What the event says of a finger, if anything.
  [[nodiscard]] std::optional<Change> take(const input_event& event);

 private:
  std::int32_t slot_ = 0;
  std::map<std::int32_t, std::int64_t> fingers_;  // by slot
};

// Of all nodes, the last kMost changes.
class TouchTimes {
 public:
  static constexpr std::size_t kMost = 64;

  void add(const TouchSlots::Change& change);
  // The oldest such change, once. Milliseconds of the clock the nodes were asked to use.
  [[nodiscard]] std::optional<std::int64_t> take(std::int64_t finger, bool down);

 private:
  std::deque<TouchSlots::Change> changes_;
};

}  // namespace ui
