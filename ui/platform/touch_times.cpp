#include "ui/platform/touch_times.h"

#include <algorithm>

namespace ui {
namespace {

constexpr std::int32_t kMostSlots = 64;  // panels have 10 or so; numbers beyond are nonsense

std::int64_t ms_of(const input_event& e) {
  return static_cast<std::int64_t>(e.input_event_sec) * 1000 +
         static_cast<std::int64_t>(e.input_event_usec) / 1000;
}

}  // namespace

std::optional<TouchSlots::Change> TouchSlots::take(const input_event& e) {
  if (e.type == EV_SYN && e.code == SYN_DROPPED) fingers_.clear();  // some were not told
  if (e.type != EV_ABS) return std::nullopt;
  if (e.code == ABS_MT_SLOT) slot_ = e.value;
  if (e.code != ABS_MT_TRACKING_ID || slot_ < 0 || slot_ >= kMostSlots) return std::nullopt;
  if (e.value >= 0) {
    fingers_[slot_] = e.value;
    return Change{e.value, true, ms_of(e)};
  }
  const auto at = fingers_.find(slot_);
  if (at == fingers_.end()) return std::nullopt;
  const Change lifted{at->second, false, ms_of(e)};
  fingers_.erase(at);
  return lifted;
}

void TouchTimes::add(const TouchSlots::Change& change) {
  changes_.push_back(change);
  if (changes_.size() > kMost) changes_.pop_front();
}

std::optional<std::int64_t> TouchTimes::take(std::int64_t finger, bool down) {
  const auto at = std::find_if(changes_.begin(), changes_.end(),
                               [&](const auto& c) { return c.finger == finger && c.down == down; });
  if (at == changes_.end()) return std::nullopt;
  const std::int64_t ms = at->at_ms;
  changes_.erase(at);
  return ms;
}

}  // namespace ui
