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
// Weibull time of shape k and median m outlasts u with exp(-ln 2 (u / m)^k). A charge of age n in
// cold t is felt as u exp(ageing n + cold t) by the battery when new at no cold.
constexpr std::size_t kFactors = 13;  // points around the likeliest factor, to four spreads
constexpr double kFactorStep = 4.0 / 6;
constexpr double kNegligible = 1e-7;

// One point of the grid.
struct Cell {
  std::size_t power;  // which of a battery's powers
  double k;
  double ageing, cold;
  double log_median;
  double log_weight;  // of shape, ageing and cold
};

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

// Of all charges of one battery: emptied ones by their density, the others by their survival. The
// cumulative hazard of a charge is `hazard` times (what is felt)^k.
double hazard_of(const Cell& c, double log_factor) {
  return std::numbers::ln2 * std::exp(-c.k * (c.log_median + log_factor));
}

double log_likelihood(const BatteryModel::OfBattery& b, const Cell& c, double hazard) {
  return b.emptied * std::log(c.k * hazard) + (c.k - 1) * b.log_heatings +
         c.k * (c.ageing * b.ages + c.cold * b.colds) - hazard * b.powers[c.power];
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

using Factors = std::array<double, kFactors>;

// The shares of the factors of one battery (nullptr: never seen) in a cell, and the logarithm of
// the likelihood of all its charges there.
struct Shares {
  Factors of{}, hazard{};
  double log_likelihood = 0;
};
Shares shares_of(const BatteryModel& m, const BatteryModel::OfBattery* b, const Cell& c) {
  const Peak peak = peak_of(m, b, c);
  const double spread = m.prior.battery_spread;
  Shares s;
  for (std::size_t j = 0; j < kFactors; ++j) {
    const double f = peak.at + peak.width * kFactorStep * (static_cast<double>(j) - kFactors / 2);
    const double z = spread > 0 ? f / spread : 0;
    s.hazard[j] = hazard_of(c, f);
    s.of[j] = -z * z / 2 + (b ? log_likelihood(*b, c, s.hazard[j]) : 0.0);
  }
  const double top = *std::max_element(s.of.begin(), s.of.end());
  double sum = 0;
  for (double& share : s.of) sum += share = std::exp(share - top);
  for (double& share : s.of) share /= sum;
  s.log_likelihood = top + std::log(sum * (spread > 0 ? peak.width / spread : 1));
  return s;
}

const BatteryModel::OfBattery* find(const BatteryModel& m, std::optional<KitId> battery) {
  if (!battery) return nullptr;
  for (const auto& b : m.batteries)
    if (b.battery == *battery) return &b;
  return nullptr;
}

double age_of(const BatteryModel::OfBattery* b) { return b ? b->age : 0; }

// What the charge a battery is on has given in a cell.
double drawn_of(const BatteryModel::OfBattery* b, const Cell& c) {
  return b ? felt(c, b->drawn / kHeatingPerCharge, b->age, b->drawn_cold) : 0;
}

// Probability, given the cell, that a charge from which `drawn` was felt goes on to `until`.
double goes_on(const Cell& c, const Shares& shares, double drawn, double until) {
  const double more = std::pow(until, c.k) - std::pow(drawn, c.k);
  double p = 0;
  for (std::size_t j = 0; j < kFactors; ++j)
    if (shares.of[j] > kNegligible) p += shares.of[j] * std::exp(-more * shares.hazard[j]);
  return p;
}

// The cells that matter, with a battery's factors in each.
struct Weighed {
  double weight;
  Cell cell;
  Shares shares;
};
std::vector<Weighed> weighed(const BatteryModel& m, const BatteryModel::OfBattery* b) {
  std::vector<Weighed> list;
  for (std::size_t i = 0; i < m.weight.size(); ++i) {
    if (m.weight[i] < kNegligible) continue;
    const Cell c = cell_at(m, i);
    list.push_back({m.weight[i], c, shares_of(m, b, c)});
  }
  return list;
}

void count(BatteryModel::OfBattery& b, const BatteryModel& m, const ChargeSeen& c) {
  const double u = c.heating / kHeatingPerCharge;
  const int age = b.age;
  ++b.charges;
  if (c.emptied) ++b.emptied, b.log_heatings += std::log(u), b.ages += age, b.colds += c.cold;
  if (c.open)
    b.drawn = c.heating, b.drawn_cold = c.cold;
  else
    ++b.age;
  for (std::size_t power = 0; power < b.powers.size(); ++power) {
    const Cell cell = cell_at(m, power * steps(m));
    b.powers[power] += std::pow(felt(cell, u, age, c.cold), cell.k);
  }
}

void weigh(BatteryModel& m) {
  m.weight.resize(powers_of(m.prior) * steps(m));
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
      at->powers.resize(powers_of(prior));
    }
    count(*at, m, c);
    ++m.charges;
    m.emptied += c.emptied ? 1 : 0;
  }
  weigh(m);
  return m;
}

BatteryModel learn_battery(const Farm& farm) { return learn_battery(charges_seen(farm)); }

double lasts(const BatteryModel& m, std::optional<KitId> battery, double more, double cold) {
  const auto* b = find(m, battery);
  const double u = std::max(0.0, more) / kHeatingPerCharge;
  double p = 0;
  for (const Weighed& w : weighed(m, b)) {
    const double drawn = drawn_of(b, w.cell);
    p += w.weight * goes_on(w.cell, w.shares, drawn, drawn + felt(w.cell, u, age_of(b), cold));
  }
  return std::clamp(p, 0.0, 1.0);
}

double full_charge(const BatteryModel& m, std::optional<KitId> battery, double p) {
  const auto* b = find(m, battery);
  const std::vector<Weighed> cells = weighed(m, b);
  const auto goes_to = [&](double u) {
    double sum = 0;
    for (const Weighed& w : cells)
      sum += w.weight * goes_on(w.cell, w.shares, 0, felt(w.cell, u, age_of(b), 0));
    return sum;
  };
  double low = -3, high = 3;  // logarithms: a twentieth to twenty common charges
  for (int i = 0; i < 24; ++i) {
    const double middle = (low + high) / 2;
    (goes_to(std::exp(middle)) > 1 - p ? low : high) = middle;
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
  const double drawn = drawn_of(b, c);
  Spread out{};
  double before = 1;
  for (std::size_t i = 0; i < kSteps; ++i) {
    const double more = lost + (static_cast<double>(i) + 0.5) * step;
    const double after = goes_on(c, shares, drawn, drawn + felt(c, more, age_of(b), 0));
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
