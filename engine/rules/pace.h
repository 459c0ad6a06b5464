// engine/rules/pace.h -- how quick the keeper is in the yard, for planning a walk.
#pragma once
#include <string>

#include "engine/core/instant.h"

namespace engine {

// Common practice, no published source: over grass in boots and with a load; the hands' work is
// timed from stepping up to a hive to stepping away.
struct Pace {
  int walk_mm_s = 1100;      // 100 to 3000
  Seconds load_and_set{20};  // each 1 to 600
  Seconds lift_and_cover{10};
  Seconds uncover{6};
  friend bool operator==(const Pace&, const Pace&) = default;

  template <class Self, class F>
  static void fields(Self& s, F&& f) {
    f("walk_mm_s", s.walk_mm_s), f("load_and_set", s.load_and_set);
    f("lift_and_cover", s.lift_and_cover), f("uncover", s.uncover);
  }
};

// One line that names the field that is out of its range, or empty.
[[nodiscard]] std::string what_is_wrong(const Pace& pace);

}  // namespace engine
