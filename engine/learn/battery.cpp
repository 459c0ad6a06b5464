#include "engine/learn/battery.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "engine/learn/battery_cells.h"
#include "engine/learn/dwell.h"

namespace engine {
namespace {

using charging::Cell, charging::Shares;

constexpr double kNegligible = 1e-7;

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
    const Cell c = charging::cell_at(m, i);
    list.push_back({m.weight[i], c, charging::shares_of(m, b, c)});
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
    const Cell cell = charging::cell_at(m, power * charging::steps(m));
    b.powers[power] += std::pow(charging::felt(cell, u, age, c.cold), cell.k);
  }
}

void weigh(BatteryModel& m) {
  m.weight.resize(charging::powers_of(m.prior) * charging::steps(m));
  for (std::size_t i = 0; i < m.weight.size(); ++i) {
    const Cell c = charging::cell_at(m, i);
    m.weight[i] = charging::log_prior(m, c);
    for (const auto& b : m.batteries) m.weight[i] += charging::shares_of(m, &b, c).log_likelihood;
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
      at->powers.resize(charging::powers_of(prior));
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
  const auto* b = charging::find(m, battery);
  const double u = std::max(0.0, more) / kHeatingPerCharge;
  double p = 0;
  for (const Weighed& w : weighed(m, b)) {
    const double drawn = charging::drawn_of(b, w.cell);
    p += w.weight * charging::goes_on(w.cell, w.shares, drawn,
                                      drawn + charging::felt(w.cell, u, charging::age_of(b), cold));
  }
  return std::clamp(p, 0.0, 1.0);
}

double full_charge(const BatteryModel& m, std::optional<KitId> battery, double p) {
  const auto* b = charging::find(m, battery);
  const std::vector<Weighed> cells = weighed(m, b);
  const auto goes_to = [&](double u) {
    double sum = 0;
    for (const Weighed& w : cells)
      sum += w.weight * charging::goes_on(w.cell, w.shares, 0,
                                          charging::felt(w.cell, u, charging::age_of(b), 0));
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
  const auto* b = charging::find(m, battery);
  return {at(0.5), at(0.1), at(0.9), b ? b->charges : m.charges, b ? b->emptied : m.emptied};
}

std::string words(const ChargeEstimate& e, MassUnit unit) {
  const std::string band = fmt::format("{} a charge ({} to {}", show(e.median, unit),
                                       show(e.low, unit), show(e.high, unit));
  if (e.charges == 0) return band + ", common practice)";
  return fmt::format("{}, from {} charge{}, {} of them emptied)", band, e.charges,
                     e.charges == 1 ? "" : "s", e.emptied);
}

}  // namespace engine
