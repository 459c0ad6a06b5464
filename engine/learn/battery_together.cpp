// Whether several batteries last, one after the other.
#include <algorithm>
#include <array>
#include <numeric>

#include "engine/learn/battery_cells.h"

namespace engine {
namespace {

using charging::Cell, charging::Shares, charging::shares_of;

constexpr std::size_t kSteps = 96;
constexpr double kNothing = 1e-12;
using Spread = std::array<double, kSteps + 1>;  // of heating given; the last: enough

// What one charge gives, in steps of `step`, after `lost` of it.
Spread gives(const Cell& c, const Shares& shares, const BatteryModel::OfBattery* b, double lost,
             double step) {
  const double drawn = charging::drawn_of(b, c);
  Spread out{};
  double before = 1;
  for (std::size_t i = 0; i < kSteps && before > kNothing; ++i) {
    const double more = lost + (static_cast<double>(i) + 0.5) * step;
    const double after = charging::goes_on(c, shares, drawn,
                                           drawn + charging::felt(c, more, charging::age_of(b), 0));
    out[i] = before - after;
    before = after;
  }
  out[kSteps] = before;
  return out;
}

Spread together(const Spread& a, const Spread& b) {
  Spread sum{};
  double tail = 0;  // of b, from where the two are enough together
  for (std::size_t i = 0; i <= kSteps; ++i) {
    tail += b[kSteps - i];
    if (a[i] < kNothing) continue;
    sum[kSteps] += a[i] * tail;
    for (std::size_t j = 0; i + j < kSteps; ++j) sum[i + j] += a[i] * b[j];
  }
  return sum;
}

// Some cells that stand for all, each for as much of the posterior: sums of charges cost more.
template <class Do>
void each_cell(const BatteryModel& m, Do&& then) {
  constexpr std::size_t kCells = 160;
  double below = 0, next = 0.5 / kCells;
  for (std::size_t i = 0; i < m.posterior->cells.size(); ++i) {
    below += m.posterior->weights[i];
    double weight = 0;
    for (; next < below; next += 1.0 / kCells) weight += 1.0 / kCells;
    if (weight > 0) then(weight, i);
  }
}

}  // namespace

double last_together(const BatteryModel& m, std::span<const KitId> batteries, double heating,
                     double each) {
  if (heating <= 0) return 1;
  const double step = heating / kHeatingPerCharge / kSteps;
  double p = 0;
  each_cell(m, [&](double w, std::size_t cell) {
    Spread sum{1};
    double lost = 0;  // nothing is lost of the last one
    for (const KitId id : batteries) {
      const auto* b = charging::find(m, id);
      sum = together(sum, gives(m.posterior->cells[cell], shares_of(m, b)[cell], b, lost, step));
      lost = each / kHeatingPerCharge;
    }
    p += w * sum[kSteps];
  });
  return std::clamp(p, 0.0, 1.0);
}

int charges_for(const BatteryModel& m, double heating, double each, double certainty) {
  constexpr int kMost = 99;
  if (heating <= 0) return 0;
  struct Way {
    double weight;
    Spread one_more, sum;
  };
  const double step = heating / kHeatingPerCharge / kSteps;
  std::vector<Way> ways;
  each_cell(m, [&](double w, std::size_t cell) {
    const Cell& c = m.posterior->cells[cell];
    const Shares& shares = m.posterior->unseen[cell];
    const double lost = each / kHeatingPerCharge;
    ways.push_back({w, gives(c, shares, nullptr, lost, step), gives(c, shares, nullptr, 0, step)});
  });
  const auto enough = [&] {
    return std::accumulate(ways.begin(), ways.end(), 0.0, [](double p, const Way& way) {
      return p + way.weight * way.sum[kSteps];
    });
  };
  int charges = 1;
  for (; charges < kMost && enough() < certainty; ++charges)
    for (Way& way : ways) way.sum = together(way.sum, way.one_more);
  return charges;
}

}  // namespace engine
