// engine/learn/battery.h -- how far a charge goes, learned from the keeper's own batteries.
//
// A charge is measured in seconds of heating: 60 s for each setting and 15 s for each gram (the
// prior of engine/learn/dwell.h). So both rules of common practice say the same: 25 colonies of two
// brood boxes (2 g) and 30 of one (1 g) are 2250 s each. Screens read grams at a dose.
//
// A battery that came out empty tells how far its charge went. One that was changed or charged
// before tells that the charge goes at least that far (right-censored); leaving those out would
// make every battery look worse than it is.
//
// The model: a charge lasts a Weibull time; its median is the keeper's typical one times a factor
// of the battery's own, less with every charge the battery has had (ageing), and less in the cold.
// Typical median, shape, ageing and cold have priors on a grid; a battery's own factor is summed
// around where it is likeliest, so that a long log is not blurred by a fixed grid.
// tests/reference/battery_calibration_test.cpp says how often what is said comes true.
#pragma once
#include <memory>
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "engine/farm/farm.h"

namespace engine {
namespace charging {
struct Posterior;
}

inline constexpr double kHeatingPerCharge = 2250;  // s, common practice, see above
inline constexpr double kCertain = 0.95;           // "will last": own choice

// Heating that one setting of so many grams loaded takes, in seconds.
[[nodiscard]] double heating_for(Mass loaded);

// One charge, as far as it went by now.
struct ChargeSeen {
  KitId battery;
  double heating = 0;  // s
  bool emptied = false;
  bool open = false;  // the charge the battery is on now
  double cold = 0;    // tens of degrees Celsius below kReferenceAir, on the mean of its heating
  bool operator==(const ChargeSeen&) const = default;
};
// Charges that vaporized something, oldest first for each battery. A battery that was empty and
// went into a vaporizer again was charged between.
[[nodiscard]] std::vector<ChargeSeen> charges_seen(const Farm& farm);

// What is believed before the first charge. Own choices where no source is named: a keeper's
// typical charge lies within about half to twice the common one; one battery differs from the next
// by a quarter (age, make); one charge of a battery differs from another as Weibull shapes 2 to 9
// say (a spread of 52 to 13 %), most likely about 28 % (4): a battery runs down, it does not fail
// at random (that would be shape 1).
// Four kits of ten are of another size than the common one, 0.4 to 2.5 of it or so. A battery loses
// nothing to 3 % of its charge with every charge, and nothing to 30 % in ten degrees of cold
// (common practice says about 1 % a degree; from memory).
struct BatteryPrior {
  std::vector<double> shapes{2, 3, 4, 6, 9};
  std::vector<double> shape_weights{0.10, 0.25, 0.30, 0.25, 0.10};
  double typical_spread = 0.30;  // of the logarithm of the typical median, around the common charge
  double battery_spread = 0.25;  // of the logarithm of a battery's own factor; 0: all are alike
  double reach = 2.0;       // of the grid, in logarithms either side: 0.14 to 7.4 common charges
  int steps = 41;           // of the grid
  double odd_share = 0.4;   // of kits of another size
  double odd_spread = 0.9;  // of the logarithm of their typical median
  std::vector<double> ageing{0, 0.005, 0.01, 0.02, 0.03};  // lost with a charge, in logarithms
  std::vector<double> ageing_weights{0.5, 0.2, 0.15, 0.1, 0.05};
  std::vector<double> cold{0, 0.1, 0.2, 0.3};  // lost in ten degrees, in logarithms
  std::vector<double> cold_weights{0.3, 0.35, 0.25, 0.1};
};

struct BatteryModel {
  struct OfBattery {
    KitId battery;
    int charges = 0, emptied = 0;
    int age = 0;              // charges before the one it is on, or that comes next
    double drawn = 0;         // s of heating on the charge it is on now
    double drawn_cold = 0;    // in which it was drawn
    double log_heatings = 0;  // sums over the emptied charges: of heating in common charges, of the
    double ages = 0, colds = 0;  // age, and of the cold
    // Sum over all charges of the heating, as a new battery would have felt it at no cold, to the
    // power of the shape; by shape, ageing and cold as the cells are.
    std::vector<double> powers;
  };
  BatteryPrior prior;
  std::vector<OfBattery> batteries;  // those seen, rising
  std::vector<double> weight;  // posterior of (shape, ageing, cold, typical median), in this order
  int charges = 0, emptied = 0;
  std::shared_ptr<const charging::Posterior> posterior;  // what the weights come to, never none
};
// Proportional to the log and the number of batteries: keep the result until the log grows.
[[nodiscard]] BatteryModel learn_battery(std::span<const ChargeSeen> charges,
                                         const BatteryPrior& prior = {});
[[nodiscard]] BatteryModel learn_battery(const Farm& farm);

// Heating (s) before which a full charge has ended with probability `p` (0.01 to 0.99), at
// kReferenceAir. Here and below `battery` may be none: one that was never seen.
[[nodiscard]] double full_charge(const BatteryModel& model, std::optional<KitId> battery, double p);
// The same in whole grams when every setting has this dose (grams loaded): eight of ten charges end
// between `low` and `high`.
struct ChargeEstimate {
  Mass median, low, high;
  int charges = 0, emptied = 0;  // learned from
};
[[nodiscard]] ChargeEstimate charge_of(const BatteryModel& model, std::optional<KitId> battery,
                                       Mass dose);
// "42 g a charge (28 to 60, from 6 charges, 4 of them emptied)"
[[nodiscard]] std::string words(const ChargeEstimate& estimate, MassUnit unit);

// Probability that the charge the battery is on now gives `more` seconds of heating, in so much
// cold (tens of degrees below kReferenceAir).
[[nodiscard]] double lasts(const BatteryModel& model, std::optional<KitId> battery, double more,
                           double cold = 0);
// Probability that these batteries, as they are now, give `heating` seconds one after the other,
// changed between settings: at each change up to `each` seconds (one setting) are left unused.
[[nodiscard]] double last_together(const BatteryModel& model, std::span<const KitId> batteries,
                                   double heating, double each);
// Full charges for the same with `certainty`; at most 99.
[[nodiscard]] int charges_for(const BatteryModel& model, double heating, double each,
                              double certainty = kCertain);

// What to do about the battery of one vaporizer on a walk.
struct BatteryAdvice {
  KitId vaporizer;
  std::optional<KitId> battery;  // none: nothing is known of it, and nothing is said
  std::optional<ColonyId> next;  // the colony it is asked about
  double through_next = 1;       // probability
  double through_yard = 1;       // for this vaporizer's share of all that is still to do
  std::optional<KitId> spare;    // charged and in no vaporizer: the one that lasts longest
  // Change it now, before the next colony. Never while the vaporizer stands in a colony: a dwell
  // that is broken off is lost. (In mid-dwell the advice is about the colony after.)
  bool change_now = false;
  std::string line;  // for the screen; empty when there is nothing to say
};
// `next`: the colony it goes to next, when the caller knows (else the first to do).
[[nodiscard]] BatteryAdvice battery_advice(const Farm& farm, const BatteryModel& model,
                                           const Walk& walk, KitId vaporizer,
                                           std::optional<ColonyId> next = std::nullopt);

}  // namespace engine
