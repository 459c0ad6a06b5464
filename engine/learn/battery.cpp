#include "engine/learn/battery.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "engine/learn/battery_cells.h"
#include "engine/learn/dwell.h"

namespace engine {
namespace {

using charging::Cell, charging::Shares;

// The mean over the posterior of what `of` says of a cell and a battery's factors there.
template <class Of>
double mean(const BatteryModel& m, const BatteryModel::OfBattery* b, Of&& of) {
  const charging::Posterior& all = *m.posterior;
  const std::vector<Shares>& shares = charging::shares_of(m, b);
  double sum = 0;
  for (std::size_t i = 0; i < all.cells.size(); ++i)
    sum += all.weights[i] * of(all.cells[i], shares[i]);
  return sum;
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
  m.posterior = std::make_shared<const charging::Posterior>(charging::posterior_of(m));
  return m;
}

BatteryModel learn_battery(const Farm& farm) { return learn_battery(charges_seen(farm)); }

double lasts(const BatteryModel& m, std::optional<KitId> battery, double more, double cold) {
  const auto* b = charging::find(m, battery);
  const double u = std::max(0.0, more) / kHeatingPerCharge;
  const double p = mean(m, b, [&](const Cell& c, const Shares& shares) {
    const double drawn = charging::drawn_of(b, c);
    return charging::goes_on(c, shares, drawn,
                             drawn + charging::felt(c, u, charging::age_of(b), cold));
  });
  return std::clamp(p, 0.0, 1.0);
}

double full_charge(const BatteryModel& m, std::optional<KitId> battery, double p) {
  const auto* b = charging::find(m, battery);
  const auto goes_to = [&](double u) {
    return mean(m, b, [&](const Cell& c, const Shares& shares) {
      return charging::goes_on(c, shares, 0, charging::felt(c, u, charging::age_of(b), 0));
    });
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
