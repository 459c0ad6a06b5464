#include "engine/learn/battery_cells.h"

#include <algorithm>
#include <cmath>
#include <numbers>

namespace engine::charging {

std::size_t steps(const BatteryModel& m) { return static_cast<std::size_t>(m.prior.steps); }
std::size_t powers_of(const BatteryPrior& p) {
  return p.shapes.size() * p.ageing.size() * p.cold.size();
}

Cell cell_at(const BatteryModel& m, std::size_t i) {
  const BatteryPrior& p = m.prior;
  const std::size_t power = i / steps(m), cold = power % p.cold.size();
  const std::size_t ageing = power / p.cold.size() % p.ageing.size();
  const std::size_t shape = power / p.cold.size() / p.ageing.size();
  const double step = 2 * p.reach / (p.steps - 1);
  return {power,
          p.shapes[shape],
          p.ageing[ageing],
          p.cold[cold],
          -p.reach + step * static_cast<double>(i % steps(m)),
          std::log(p.shape_weights[shape] * p.ageing_weights[ageing] * p.cold_weights[cold])};
}

double log_prior(const BatteryModel& m, const Cell& c) {
  const auto bell = [&](double width) {
    const double z = c.log_median / width;
    return std::exp(-z * z / 2) / width;
  };
  const double odd = m.prior.odd_share;
  return c.log_weight + std::log((1 - odd) * bell(m.prior.typical_spread) +
                                 (odd > 0 ? odd * bell(m.prior.odd_spread) : 0));
}

double felt(const Cell& c, double u, double age, double cold) {
  return u * std::exp(c.ageing * age + c.cold * cold);
}

namespace {

constexpr double kFactorStep = 4.0 / 6;
// The cumulative hazard of a charge is `hazard` times (what is felt)^k.
double hazard_of(const Cell& c, double log_factor) {
  return std::numbers::ln2 * std::exp(-c.k * (c.log_median + log_factor));
}

// Of all charges of one battery: emptied ones by their density, the others by their survival. This
// part is alike for all factors.
double log_likelihood_of_all(const BatteryModel::OfBattery& b, const Cell& c) {
  return b.emptied * (std::log(c.k * std::numbers::ln2) - c.k * c.log_median) +
         (c.k - 1) * b.log_heatings + c.k * (c.ageing * b.ages + c.cold * b.colds);
}

// Where the factor of a battery is likeliest in a cell, and how wide around it, by Newton's method
// on a concave curve.
struct Peak {
  double at = 0, width = 0;
};
Peak peak_of(const BatteryModel& m, const BatteryModel::OfBattery* b, const Cell& c) {
  const double spread = m.prior.battery_spread;
  if (b == nullptr || spread <= 0) return {0, spread};
  const double tight = 1 / (spread * spread), all = hazard_of(c, 0) * b->powers[c.power];
  const double pull = b->emptied * c.k * c.k * spread * spread;  // of the charges against the prior
  double f = b->emptied > 0 ? std::log(all / b->emptied) / c.k * pull / (1 + pull) : 0;
  double curve = tight;
  for (int i = 0; i < 6; ++i) {
    const double left = all * std::exp(-c.k * f);
    curve = tight + c.k * c.k * left;
    f += (c.k * left - c.k * b->emptied - f * tight) / curve;
  }
  return {f, 1 / std::sqrt(curve)};
}

}  // namespace

Shares shares_of(const BatteryModel& m, const BatteryModel::OfBattery* b, const Cell& c) {
  const Peak peak = peak_of(m, b, c);
  const double spread = m.prior.battery_spread, step = peak.width * kFactorStep;
  const double first = peak.at - step * (kFactors / 2), all = b ? log_likelihood_of_all(*b, c) : 0;
  // The factors lie at equal steps, so that each hazard is the same part of the one before.
  const double part = std::exp(-c.k * step);
  double hazard = hazard_of(c, first);
  Shares s;
  for (std::size_t j = 0; j < kFactors; ++j, hazard *= part) {
    const double f = first + step * static_cast<double>(j);
    const double z = spread > 0 ? f / spread : 0;
    s.hazard[j] = hazard;
    s.of[j] = all - z * z / 2 - (b ? b->emptied * c.k * f + hazard * b->powers[c.power] : 0.0);
  }
  const double top = *std::max_element(s.of.begin(), s.of.end());
  double sum = 0;
  for (double& share : s.of) sum += share = std::exp(share - top);
  for (double& share : s.of) share /= sum;
  s.log_likelihood = top + std::log(sum * (spread > 0 ? peak.width / spread : 1));
  return s;
}

Posterior posterior_of(const BatteryModel& m) {
  constexpr double kNegligible = 1e-7;
  Posterior p;
  for (std::size_t i = 0; i < m.weight.size(); ++i) {
    if (m.weight[i] < kNegligible) continue;
    p.cells.push_back(cell_at(m, i));
    p.weights.push_back(m.weight[i]);
  }
  const auto all = [&](const BatteryModel::OfBattery* b) {
    std::vector<Shares> list;
    list.reserve(p.cells.size());
    for (const Cell& c : p.cells) list.push_back(shares_of(m, b, c));
    return list;
  };
  for (const auto& b : m.batteries) p.shares.push_back(all(&b));
  p.unseen = all(nullptr);
  return p;
}

const std::vector<Shares>& shares_of(const BatteryModel& m, const BatteryModel::OfBattery* b) {
  if (b == nullptr) return m.posterior->unseen;
  return m.posterior->shares[static_cast<std::size_t>(b - m.batteries.data())];
}

const BatteryModel::OfBattery* find(const BatteryModel& m, std::optional<KitId> battery) {
  if (!battery) return nullptr;
  for (const auto& b : m.batteries)
    if (b.battery == *battery) return &b;
  return nullptr;
}

double age_of(const BatteryModel::OfBattery* b) { return b ? b->age : 0; }

double drawn_of(const BatteryModel::OfBattery* b, const Cell& c) {
  return b ? felt(c, b->drawn / kHeatingPerCharge, b->age, b->drawn_cold) : 0;
}

double goes_on(const Cell& c, const Shares& shares, double drawn, double until) {
  const double more = std::pow(until, c.k) - std::pow(drawn, c.k);
  double p = 0;
  for (std::size_t j = 0; j < kFactors; ++j)
    if (shares.of[j] > 1e-7) p += shares.of[j] * std::exp(-more * shares.hazard[j]);
  return p;
}

}  // namespace engine::charging
