// ui/touch/press.h -- one gloved finger, as a value: what counts as a tap and what does not.
//
// Pure: no widget library, no clock. Times are monotonic milliseconds. It decides against the
// targets as they were last shown, because that is what the finger aimed at:
//   * a tap is a press on a target and a lift within that target grown by a third of its height;
//   * a press within 300 ms of a counted tap, on the same target or on the spot where that target
//     stood, is a bounce and does nothing, also when another screen has come up under the finger;
//   * a hold target counts after 1.0 s with the finger still on it, once; lifted early: nothing;
//   * a target that vanished, moved away or was disabled meanwhile does not count.
// The two times are common practice for gloves, no standard: no source.
#pragma once
#include <cstdint>
#include <optional>
#include <string>
#include <vector>

#include "ui/touch/rect.h"

namespace ui {

inline constexpr std::int64_t kBounceMs = 300;
inline constexpr std::int64_t kHoldMs = 1000;
inline constexpr std::int64_t kHoldFrameMs = 33;  // how often the filling bar is drawn

struct Target {
  std::string label;  // what a person reads on it
  std::string id;     // stays the same while the label counts; mostly the label itself
  Rect rect;
  bool enabled = true;
  bool hold = false;
};

struct Finger {
  bool down = false;
  float x = 0, y = 0;
};

class Press {
 public:
  // To be told of every change of the finger (one call for each press and each lift) and of time.
  void step(const Finger& finger, std::int64_t now_ms, const std::vector<Target>& shown);

  // True in the one frame in which the target counted.
  [[nodiscard]] bool tapped(const std::string& id, const Rect& rect) const;
  [[nodiscard]] bool pressing(const std::string& id, const Rect& rect) const;
  // 0 to 1: how much of the hold has passed.
  [[nodiscard]] float held(const std::string& id, const Rect& rect) const;
  [[nodiscard]] bool holding() const {
    return caught_ && caught_->target.hold && !caught_->counted;
  }

 private:
  struct Caught {
    Target target;
    float x = 0, y = 0;  // where the press began
    std::int64_t since = 0;
    bool counted = false;
  };
  void press(std::int64_t now_ms, const std::vector<Target>& shown);
  void keep(std::int64_t now_ms, const std::vector<Target>& shown);
  void lift(std::int64_t now_ms);
  void count();
  [[nodiscard]] bool bounce(const Target& target, std::int64_t now_ms) const;
  [[nodiscard]] bool still_shown(const std::vector<Target>& shown) const;
  [[nodiscard]] bool near_target() const;

  Finger finger_;
  std::int64_t now_ = 0;
  std::optional<Caught> caught_;
  std::optional<Caught> counted_;  // this frame's tap
  std::optional<Target> last_;     // the last tap, for the bounce guard
  std::int64_t last_at_ = 0;
};

}  // namespace ui
