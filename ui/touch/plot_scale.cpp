#include "ui/touch/plot_scale.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <numeric>

namespace ui {

namespace {

// The least of 1, 2, 5 times a power of ten that is not below `least`.
double round_step(double least) {
  const double power = std::pow(10.0, std::floor(std::log10(least)));
  for (const double times : {1.0, 2.0, 5.0, 10.0})
    if (times * power >= least * (1 - 1e-9)) return times * power;
  return 10 * power;
}

int decimals_of(double step) {
  return std::max(0, static_cast<int>(-std::floor(std::log10(step) + 1e-9)));
}

std::size_t ticks_with(double low, double high, double step) {
  return static_cast<std::size_t>(std::ceil(high / step - 1e-9) - std::floor(low / step + 1e-9)) +
         1;
}

double finite(double value) { return std::isfinite(value) ? value : 0; }

}  // namespace

Scale number_scale(double low, double high, std::size_t most) {
  low = finite(low), high = finite(high);
  if (low > high) std::swap(low, high);
  if (high - low < 1e-9 * std::max(1.0, std::abs(high))) high = low + 1;
  most = std::max<std::size_t>(most, 2);
  double step = round_step((high - low) / static_cast<double>(most));
  while (ticks_with(low, high, step) > most) step = round_step(step * 1.5);
  const double first = std::floor(low / step + 1e-9) * step;
  const std::size_t count = std::max<std::size_t>(2, ticks_with(low, high, step));
  Scale scale{first, first + step * static_cast<double>(count - 1), {}};
  for (std::size_t i = 0; i < count; ++i) {
    const double at = first + step * static_cast<double>(i);
    scale.ticks.push_back({at, fmt::format("{:.{}f}", at, decimals_of(step))});
  }
  return scale;
}

Scale day_scale(int first, int last, std::size_t most,
                const std::function<std::string(int)>& label) {
  last = std::max(last, first + 1);
  most = std::max<std::size_t>(most, 2);
  const auto count = [&](int step) { return static_cast<std::size_t>((last - first) / step) + 1; };
  int step = 1;
  for (const int next : {2, 7, 14})
    if (count(step) > most) step = next;
  while (count(step) > most) step += 7;
  Scale scale{static_cast<double>(first), static_cast<double>(last), {}};
  for (int day = first; day <= last; day += step)
    scale.ticks.push_back({static_cast<double>(day), label(day)});
  return scale;
}

float place(const Scale& scale, double value, float from, float to) {
  const double part = (finite(value) - scale.low) / (scale.high - scale.low);
  return from + static_cast<float>(std::clamp(part, 0.0, 1.0)) * (to - from);
}

std::vector<float> spread(std::span<const float> middles, float height, float top, float bottom) {
  std::vector<std::size_t> order(middles.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  std::stable_sort(order.begin(), order.end(),
                   [&](std::size_t a, std::size_t b) { return middles[a] < middles[b]; });
  std::vector<float> out(middles.begin(), middles.end());
  float low = top + height / 2;  // the least middle of the next one
  for (const std::size_t i : order) {
    out[i] = std::max(out[i], low);
    low = out[i] + height;
  }
  float high = bottom - height / 2;
  for (auto i = order.rbegin(); i != order.rend(); ++i) {
    out[*i] = std::min(out[*i], high);
    high = out[*i] - height;
  }
  return out;
}

}  // namespace ui
