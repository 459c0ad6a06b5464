#include "engine/learn/battery.h"

#include <fmt/format.h>

#include <algorithm>
#include <array>
#include <cmath>
#include <numbers>
#include <numeric>

#include "engine/learn/dwell.h"

namespace engine {
namespace {

// Heating is counted in common charges (u = s / kHeatingPerCharge), medians by their logarithm. A
// Weibull time of shape k and median m outlasts u with exp(-ln 2 (u / m)^k).
constexpr std::size_t kFactors = 9;  // a battery's own factor, to three spreads either side
constexpr double kNegligible = 1e-7;

// One point of the grid.
struct Cell {
  std::size_t shape;  // which
  double k;
  double log_median;
};

std::size_t steps(const BatteryModel& m) { return static_cast<std::size_t>(m.prior.steps); }

Cell cell_at(const BatteryModel& m, std::size_t i) {
  const std::size_t shape = i / steps(m);
  const double step = 2 * m.prior.reach / (m.prior.steps - 1);
  return {shape, m.prior.shapes[shape], -m.prior.reach + step * static_cast<double>(i % steps(m))};
}

double log_prior(const BatteryModel& m, const Cell& c) {
  const double z = c.log_median / m.prior.typical_spread;
  return std::log(m.prior.shape_weights[c.shape]) - z * z / 2;
}

// The j-th factor in spreads; and its share, before the sum is made one.
double spreads(std::size_t j) { return 0.75 * (static_cast<double>(j) - kFactors / 2); }
double log_share(std::size_t j) { return -spreads(j) * spreads(j) / 2; }

// Of all charges of one battery: emptied ones by their density, the others by their survival. The
// cumulative hazard of a charge is `hazard` times u^k.
double hazard_of(const Cell& c, double log_factor) {
  return std::numbers::ln2 * std::exp(-c.k * (c.log_median + log_factor));
}

double log_likelihood(const BatteryModel::OfBattery& b, const Cell& c, double hazard) {
  return b.emptied * std::log(c.k * hazard) + (c.k - 1) * b.log_heatings -
         hazard * b.powers[c.shape];
}

using Factors = std::array<double, kFactors>;

// The shares of the factors of one battery (nullptr: never seen) in a cell, and the logarithm of
// the likelihood of all its charges there.
struct Shares {
  Factors of{}, hazard{};
  double log_likelihood = 0;
};
Shares shares_of(const BatteryModel& m, const BatteryModel::OfBattery* b, const Cell& c) {
  Shares s;
  for (std::size_t j = 0; j < kFactors; ++j) {
    s.hazard[j] = hazard_of(c, m.prior.battery_spread * spreads(j));
    s.of[j] = log_share(j) + (b ? log_likelihood(*b, c, s.hazard[j]) : 0.0);
  }
  const double top = *std::max_element(s.of.begin(), s.of.end());
  double sum = 0;
  for (double& share : s.of) sum += share = std::exp(share - top);
  for (double& share : s.of) share /= sum;
  s.log_likelihood = top + std::log(sum);
  return s;
}

const BatteryModel::OfBattery* find(const BatteryModel& m, std::optional<KitId> battery) {
  if (!battery) return nullptr;
  for (const auto& b : m.batteries)
    if (b.battery == *battery) return &b;
  return nullptr;
}

// Probability, given the cell, that a charge from which `drawn` was taken goes on to `until`.
double goes_on(const Cell& c, const Shares& shares, double drawn, double until) {
  const double more = std::pow(until, c.k) - std::pow(drawn, c.k);
  double p = 0;
  for (std::size_t j = 0; j < kFactors; ++j)
    if (shares.of[j] > kNegligible) p += shares.of[j] * std::exp(-more * shares.hazard[j]);
  return p;
}

// The same over the whole posterior; `drawn` is part of what was learned from.
double goes_on(const BatteryModel& m, const BatteryModel::OfBattery* b, double drawn,
               double until) {
  double p = 0;
  for (std::size_t i = 0; i < m.weight.size(); ++i) {
    if (m.weight[i] < kNegligible) continue;
    const Cell c = cell_at(m, i);
    p += m.weight[i] * goes_on(c, shares_of(m, b, c), drawn, until);
  }
  return std::clamp(p, 0.0, 1.0);
}

void count(BatteryModel::OfBattery& b, const std::vector<double>& shapes, const ChargeSeen& c) {
  const double u = c.heating / kHeatingPerCharge;
  ++b.charges;
  if (c.emptied) ++b.emptied, b.log_heatings += std::log(u);
  if (c.open) b.drawn = c.heating;
  for (std::size_t i = 0; i < b.powers.size(); ++i) b.powers[i] += std::pow(u, shapes[i]);
}

void weigh(BatteryModel& m) {
  m.weight.resize(m.prior.shapes.size() * steps(m));
  for (std::size_t i = 0; i < m.weight.size(); ++i) {
    const Cell c = cell_at(m, i);
    m.weight[i] = log_prior(m, c);
    for (const auto& b : m.batteries) m.weight[i] += shares_of(m, &b, c).log_likelihood;
  }
  const double top = *std::max_element(m.weight.begin(), m.weight.end());
  double sum = 0;
  for (double& w : m.weight) sum += w = std::exp(w - top);
  for (double& w : m.weight) w /= sum;
}

}  // namespace

double heating_for(Mass loaded) {
  return kDwellBase + kDwellPerGram * static_cast<double>(loaded.mg) / 1000;
}

BatteryModel learn_battery(std::span<const ChargeSeen> charges, const BatteryPrior& prior) {
  BatteryModel m{.prior = prior};
  for (const ChargeSeen& c : charges) {
    if (c.heating <= 0) continue;
    auto at = std::lower_bound(m.batteries.begin(), m.batteries.end(), c.battery,
                               [](const auto& b, KitId id) { return b.battery < id; });
    if (at == m.batteries.end() || at->battery != c.battery) {
      at = m.batteries.insert(at, {.battery = c.battery});
      at->powers.resize(prior.shapes.size());
    }
    count(*at, prior.shapes, c);
    ++m.charges;
    m.emptied += c.emptied ? 1 : 0;
  }
  weigh(m);
  return m;
}

BatteryModel learn_battery(const Farm& farm) { return learn_battery(charges_seen(farm)); }

double lasts(const BatteryModel& m, std::optional<KitId> battery, double more) {
  const auto* b = find(m, battery);
  const double drawn = b ? b->drawn / kHeatingPerCharge : 0;
  return goes_on(m, b, drawn, drawn + std::max(0.0, more) / kHeatingPerCharge);
}

double full_charge(const BatteryModel& m, std::optional<KitId> battery, double p) {
  const auto* b = find(m, battery);
  double low = -3, high = 3;  // logarithms: a twentieth to twenty common charges
  for (int i = 0; i < 24; ++i) {
    const double middle = (low + high) / 2;
    (goes_on(m, b, 0, std::exp(middle)) > 1 - p ? low : high) = middle;
  }
  return kHeatingPerCharge * std::exp((low + high) / 2);
}

ChargeEstimate charge_of(const BatteryModel& m, std::optional<KitId> battery, Mass dose) {
  const double colonies_per_s = 1 / heating_for(dose);
  const auto at = [&](double p) {
    const double grams =
        full_charge(m, battery, p) * colonies_per_s * static_cast<double>(dose.mg) / 1000;
    return Mass{std::llround(grams) * 1000};
  };
  const auto* b = find(m, battery);
  return {at(0.5), at(0.1), at(0.9), b ? b->charges : m.charges, b ? b->emptied : m.emptied};
}

// ---- several charges ----

namespace {

constexpr std::size_t kSteps = 96;
using Spread = std::array<double, kSteps + 1>;  // of heating given; the last: enough

// What one charge gives, in steps of `step`, after `lost` of it.
Spread gives(const BatteryModel& m, const Cell& c, const BatteryModel::OfBattery* b, double lost,
             double step) {
  const Shares shares = shares_of(m, b, c);
  const double drawn = b ? b->drawn / kHeatingPerCharge : 0;
  Spread out{};
  double before = 1;
  for (std::size_t i = 0; i < kSteps; ++i) {
    const double until = drawn + lost + (static_cast<double>(i) + 0.5) * step;
    const double after = goes_on(c, shares, drawn, until);
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

// The posterior with neighbouring medians taken together at their mean: sums of charges cost more.
template <class Do>
void each_cell(const BatteryModel& m, Do&& then) {
  constexpr std::size_t kTogether = 5;
  for (std::size_t shape = 0; shape < m.prior.shapes.size(); ++shape)
    for (std::size_t from = 0; from < steps(m); from += kTogether) {
      double weight = 0, log_median = 0;
      for (std::size_t at = from; at < std::min(from + kTogether, steps(m)); ++at) {
        const std::size_t i = shape * steps(m) + at;
        weight += m.weight[i];
        log_median += m.weight[i] * cell_at(m, i).log_median;
      }
      if (weight > 1e-4) then(weight, Cell{shape, m.prior.shapes[shape], log_median / weight});
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
      sum = together(sum, gives(m, c, find(m, id), lost, step));
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

std::string words(const ChargeEstimate& e, MassUnit unit) {
  const std::string band = fmt::format("{} a charge ({} to {}", show(e.median, unit),
                                       show(e.low, unit), show(e.high, unit));
  if (e.charges == 0) return band + ", common practice)";
  return fmt::format("{}, from {} charge{}, {} of them emptied)", band, e.charges,
                     e.charges == 1 ? "" : "s", e.emptied);
}

}  // namespace engine
