// engine/learn/learned.h -- all that is learned from the log about the keeper's kit.
#pragma once
#include <optional>
#include <vector>

#include "engine/learn/battery.h"
#include "engine/learn/dwell.h"

namespace engine {

struct Learned {
  DwellModel dwell;
  BatteryModel battery;
};
// From the last entries of a long log: recent.h.
[[nodiscard]] Learned learn(const Farm& farm);

// Learns anew only when the log has grown since the last question (it never shrinks), and of
// batteries only when it has grown by something that a charge was used for: that is the dearer
// half, and most taps of a walk say nothing of it.
class LearnedOnce {
 public:
  [[nodiscard]] const Learned& of(const Farm& farm);

 private:
  std::optional<Learned> learned_;
  std::vector<ChargeSeen> charges_;
  std::size_t entries_ = 0;
};

}  // namespace engine
