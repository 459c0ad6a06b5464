// ui/touch/press.h -- one gloved finger, as a value: what counts as a tap and what does not.
//
// Pure: no widget library, no clock. Times are monotonic milliseconds, of the finger and not of the
// frame that hears of it: a commit may take a third of a second, and what the finger did meanwhile
// is heard only afterwards. It decides against the targets that were on the screen when the finger
// came down, because that is what it aimed at:
//   * a tap is a press on a target and a lift within that target grown by a third of its height;
//   * a press within 300 ms of a counted tap, on the same target or on the spot where that target
//     stood, is a bounce and does nothing, also when another screen has come up under the finger;
//   * a hold target counts after 1.0 s with the finger still on it, once; lifted early: nothing,
//     however late that is heard;
//   * a target that vanished, moved away or was disabled meanwhile does not count, nor does one
//     that was not on the screen yet when the finger came down;
//   * a finger that was taken back (a lift without a place) does nothing.
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

// When a finger came down or was lifted. What happened while nobody listened lies between the two;
// each rule takes the end that makes it the more careful.
struct TouchTime {
  TouchTime(std::int64_t at = 0) : earliest(at), latest(at) {}
  TouchTime(std::int64_t from, std::int64_t to) : earliest(from), latest(to) {}
  std::int64_t earliest, latest;
};

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
  // `built`: the targets of the frame before, whether or not anybody saw it.
  void step(const Finger& finger, TouchTime at, const std::vector<Target>& built);
  // These are on the screen from then on. Who never says so shows every frame that is built.
  void shown(std::int64_t at_ms, const std::vector<Target>& targets);

  // True in the one frame in which the target counted.
  [[nodiscard]] bool tapped(const std::string& id, const Rect& rect) const;
  [[nodiscard]] bool pressing(const std::string& id, const Rect& rect) const;
  // 0 to 1: how much of the hold has passed.
  [[nodiscard]] float held(const std::string& id, const Rect& rect) const;
  [[nodiscard]] bool holding() const {
    return caught_ && caught_->target.hold && !caught_->counted;
  }
  // The finger is down and does nothing: on no target, taken back, or its hold has counted.
  [[nodiscard]] bool rests() const { return finger_.down && (!caught_ || caught_->counted); }

 private:
  struct Caught {
    Target target;
    float x = 0, y = 0;  // where the press began
    std::int64_t since = 0;
    bool counted = false;
  };
  struct Shown {
    std::int64_t since = 0;
    std::vector<Target> targets;
  };
  void press(TouchTime at, const std::vector<Target>& built);
  void keep(std::int64_t at_ms, const std::vector<Target>& built);
  void lift(TouchTime at);
  void count(std::int64_t at_ms);
  [[nodiscard]] const std::vector<Target>& aimed_at(std::int64_t at_ms,
                                                    const std::vector<Target>& built) const;
  [[nodiscard]] bool bounce(const Target& target, std::int64_t at_ms) const;
  [[nodiscard]] bool still_there(const std::vector<Target>& built) const;
  [[nodiscard]] bool near_target() const;

  Finger finger_;
  std::int64_t now_ = 0;
  std::optional<Caught> caught_;
  std::optional<Caught> counted_;  // this frame's tap
  std::optional<Target> last_;     // the last tap, for the bounce guard
  std::int64_t last_at_ = 0;
  std::optional<Shown> now_shown_;  // on the screen now
  std::optional<Shown> was_shown_;  // and before that
};

}  // namespace ui
