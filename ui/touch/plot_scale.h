// ui/touch/plot_scale.h -- where values stand on a chart: ticks, positions, labels that make room.
//
// Pure arithmetic, no drawing. Ticks are round numbers (1, 2 or 5 times a power of ten) or whole
// days, never more than asked for, so that a chart can be read at arm's length.
#pragma once
#include <cstddef>
#include <functional>
#include <span>
#include <string>
#include <vector>

namespace ui {

struct Tick {
  double at = 0;
  std::string label;
};
// low < high; every tick lies within.
struct Scale {
  double low = 0, high = 1;
  std::vector<Tick> ticks;
};

// Holds low..high and ends on ticks; 2 to `most` of them (most >= 2). Equal or turned ends are
// widened; what is not finite counts as 0.
[[nodiscard]] Scale number_scale(double low, double high, std::size_t most);

// Days first..last (numbered as the caller likes) with ticks 1, 2, 7, 14 or more whole weeks
// apart, starting at `first`; `label` gives the words of a day.
[[nodiscard]] Scale day_scale(int first, int last, std::size_t most,
                              const std::function<std::string(int)>& label);

// The place of a value between from and to (px; may run backwards), held inside.
[[nodiscard]] float place(const Scale& scale, double value, float from, float to);

// Middles of labels of that height, moved as little as keeps them from overlapping, in the same
// order, and within top..bottom (as far as there is room for all).
[[nodiscard]] std::vector<float> spread(std::span<const float> middles, float height, float top,
                                        float bottom);

}  // namespace ui
