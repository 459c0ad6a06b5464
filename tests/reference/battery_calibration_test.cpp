// How often a battery lasts where the forecast says so, in invented keepers' logs: as the simple
// model says, with batteries that age, on cold evenings, with a kit far smaller than the common
// one, and after a long log. Seed 20261203 throughout; 150 keepers a row. In each log the first
// battery's next full charge is asked about: whether it gives 0.55, 0.75 and 1 of the keeper's
// typical charge, aged and cold as it is then. What is said on the mean stands beside how often it
// comes, which is known exactly, since the truth is.
//
// The truths are inventions: Weibull charges of shape 4 whose median is 2250 s (25 settings of 2 g,
// common practice) give or take the spreads of the prior.
#include <doctest/doctest.h>

#include <array>
#include <cmath>
#include <numbers>
#include <random>
#include <string>

#include "engine/learn/battery.h"
#include "tests/support/evening.h"

namespace battery_calibration_test {

using namespace engine;

namespace {

using Dice = std::mt19937_64;

double normal(Dice& dice, double width) { return std::normal_distribution<double>(0, width)(dice); }

struct Truth {
  std::string name;
  int charges = 10;    // of each of two batteries
  double typical = 1;  // common charges, and the width of its logarithm
  double typical_spread = 0.3;
  double ageing = 0;  // lost with a charge, in logarithms
  double cold = 0;    // lost in ten degrees
  double asked_cold = 0;
};

constexpr double kShape = 4;

// Charges of one battery; the true median of the one that is asked about.
double battery_log(const Truth& t, int n, double typical, Dice& dice,
                   std::vector<ChargeSeen>& log) {
  const double own = typical * std::exp(normal(dice, 0.25));
  const auto median = [&](int age, double cold) {
    return kHeatingPerCharge * own * std::exp(-t.ageing * age - t.cold * cold);
  };
  const auto charge = [&](int age, double cold) {
    const double u =
        std::pow(std::exponential_distribution<double>(std::numbers::ln2)(dice), 1 / kShape);
    return u * median(age, cold);
  };
  for (int age = 0; age < t.charges; ++age) {
    const double cold = normal(dice, 0.6);  // evenings of 4 to 16 degrees
    const double whole = charge(age, cold);
    // Half of the charges are run until they end; the others are changed when the keeper planned.
    const double planned =
        std::uniform_real_distribution<double>(0.4, 1.2)(dice) * kHeatingPerCharge * typical;
    const bool changed = std::bernoulli_distribution(0.5)(dice) && planned < whole;
    log.push_back({evening::battery(n), changed ? planned : whole, !changed, false, cold});
  }
  return median(t.charges, t.asked_cold);
}

constexpr std::array<double, 3> kAsked{0.55, 0.75, 1};  // of what is typical then

BatteryPrior simple() {
  BatteryPrior p;
  p.odd_share = 0;
  p.ageing = {0}, p.ageing_weights = {1}, p.cold = {0}, p.cold_weights = {1};
  return p;
}

struct Outcome {
  std::array<double, 3> said{}, came{};
  double score = 0;  // mean log score of what was said
};

Outcome outcome(const Truth& t, const BatteryPrior& prior) {
  constexpr int kKeepers = 150;
  Dice dice(20261203);
  Outcome o;
  for (int i = 0; i < kKeepers; ++i) {
    const double typical = t.typical * std::exp(normal(dice, t.typical_spread));
    std::vector<ChargeSeen> log;
    const double next = battery_log(t, 1, typical, dice, log);
    battery_log(t, 2, typical, dice, log);
    const BatteryModel m = learn_battery(log, prior);
    const double usual =
        kHeatingPerCharge * t.typical * std::exp(-t.ageing * t.charges - t.cold * t.asked_cold);
    for (std::size_t j = 0; j < kAsked.size(); ++j) {
      const double p = lasts(m, evening::battery(1), kAsked[j] * usual, t.asked_cold);
      const double gives =
          std::exp(-std::numbers::ln2 * std::pow(kAsked[j] * usual / next, kShape));
      o.said[j] += p / kKeepers, o.came[j] += gives / kKeepers;
      const double score = gives * std::log(p) + (1 - gives) * std::log(1 - p);
      o.score += score / kKeepers / double{kAsked.size()};
    }
  }
  return o;
}

const Truth kSimple{.name = "as the simple model says"};

}  // namespace

TEST_CASE("a battery lasts as often as is said, within 0.05") {
  const Truth rows[] = {
      kSimple,
      {.name = "a long log", .charges = 80},
      {.name = "ageing 1.5 % a charge", .charges = 40, .ageing = 0.015},
      {.name = "cold evenings, 1.5 % a degree, asked at 0 degrees",
       .charges = 15,
       .cold = 0.15,
       .asked_cold = 1},
      {.name = "a kit of 0.35, three charges each",
       .charges = 3,
       .typical = 0.35,
       .typical_spread = 0.1},
  };
  for (const Truth& t : rows) {
    const Outcome o = outcome(t, {});
    CAPTURE(t.name);
    for (std::size_t j = 0; j < kAsked.size(); ++j) {
      INFO(kAsked[j] << ": said " << o.said[j] << ", came " << o.came[j]);
      CHECK(std::abs(o.came[j] - o.said[j]) <= 0.05);
    }
  }
}

TEST_CASE("where the simple model is true, knowing of age and cold costs nothing to speak of") {
  CHECK(outcome(kSimple, {}).score >= outcome(kSimple, simple()).score - 0.01);
}

}  // namespace battery_calibration_test
