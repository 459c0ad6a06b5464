// Whether several batteries last, one after the other.
#include <algorithm>
#include <array>
#include <numeric>

#include "engine/learn/battery_cells.h"

namespace engine {
namespace {

using charging::Cell, charging::cell_at, charging::Shares;

constexpr std::size_t kSteps = 96;
using Spread = std::array<double, kSteps + 1>;  // of heating given; the last: enough

// What one charge gives, in steps of `step`, after `lost` of it.
Spread gives(const BatteryModel& m, const Cell& c, const BatteryModel::OfBattery* b, double lost,
             double step) {
  const Shares shares = charging::shares_of(m, b, c);
  const double drawn = charging::drawn_of(b, c);
  Spread out{};
  double before = 1;
  for (std::size_t i = 0; i < kSteps; ++i) {
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
  for (std::size_t i = 0; i <= kSteps; ++i) {
    if (a[i] < 1e-12) continue;
    for (std::size_t j = 0; j <= kSteps; ++j) sum[std::min(i + j, kSteps)] += a[i] * b[j];
  }
  return sum;
}

// Some cells that stand for all, each for as much of the posterior: sums of charges cost more.
template <class Do>
void each_cell(const BatteryModel& m, Do&& then) {
  constexpr std::size_t kCells = 160;
  double below = 0, next = 0.5 / kCells;
  for (std::size_t i = 0; i < m.weight.size(); ++i) {
    below += m.weight[i];
    double weight = 0;
    for (; next < below; next += 1.0 / kCells) weight += 1.0 / kCells;
    if (weight > 0) then(weight, cell_at(m, i));
  }
}

}  // namespace

double last_together(const BatteryModel& m, std::span<const KitId> batteries, double heating,
                     double each) {
  if (heating <= 0) return 1;
  const double step = heating / kHeatingPerCharge / kSteps;
  double p = 0;
  each_cell(m, [&](double w, const Cell& c) {
    Spread sum{1};
    double lost = 0;  // nothing is lost of the last one
    for (const KitId id : batteries) {
      sum = together(sum, gives(m, c, charging::find(m, id), lost, step));
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
  each_cell(m, [&](double w, const Cell& c) {
    const double lost = each / kHeatingPerCharge;
    ways.push_back({w, gives(m, c, nullptr, lost, step), gives(m, c, nullptr, 0, step)});
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
