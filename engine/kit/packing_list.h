// engine/kit/packing_list.h -- what to put on the truck for an evening, beside what the kit has.
//
// The acid is what is loaded for the label's doses, and a tenth more (kSpareAcid) or one dose. The
// batteries are those that last for all the heating with 95 % (engine/learn/battery.h), and one to
// spare. Own choices where no source is named; the label, the makers' manuals and local law come
// first.
#pragma once
#include <optional>
#include <string>
#include <vector>

#include "engine/core/units.h"
#include "engine/farm/queries.h"
#include "engine/learn/battery.h"

namespace engine {

// One colony of the evening, and its dose on the basis of the label in force.
struct ToTreat {
  ColonyId colony;
  Mass dose;
};
// These colonies with the dose that will be prompted.
[[nodiscard]] std::vector<ToTreat> to_treat(const Farm& farm,
                                            const std::vector<const Colony*>& colonies,
                                            const LabelRules& rules);

struct PackAsk {
  std::vector<ToTreat> colonies;
  LabelRules rules;
  Date on{};
  std::optional<Seconds> cloth_saves;  // of the evening, by one more cloth; none: nobody asked
};

struct PackAcid {
  Mass doses;   // what is loaded for the colonies, as it lies on the shelf
  Mass needed;  // and a tenth more, or one dose where that is more
  Mass there;   // of lots that are not past their expiry that day
  struct FromLot {
    LotId lot;
    Mass take;
    Mass left;  // on the shelf before the evening
  };
  std::vector<FromLot> lots;  // those that expire first come first
  [[nodiscard]] Mass short_by() const { return there < needed ? needed - there : Mass{}; }
};

struct PackBatteries {
  int full_needed = 0;   // charges from full that last with kCertain, by all that was learned
  int full = 0;          // charged and not used since
  int begun = 0;         // used since, and not called empty
  double lasts = 0;      // probability that all of these, as they are, last for the evening
  int learned_from = 0;  // charges
  bool spare = false;    // they last with kCertain even if the best of them fails
  std::vector<KitId> to_charge;  // those that came out of a vaporizer since they were charged
  [[nodiscard]] bool enough() const { return lasts >= kCertain; }
};

struct PackRespirator {
  KitId item;
  std::string cartridge;
  Ms worn{};
  std::optional<Ms> left;  // none: the setup does not say how long a cartridge lasts
};

struct PackList {
  int colonies = 0;
  PackAcid acid;
  PackBatteries batteries;
  std::vector<KitId> vaporizers;
  std::vector<KitId> to_clean;  // of these, due for cleaning before the evening is over
  int cloths = 0;               // those left on a hive among them
  int cloths_left_on = 0;
  std::optional<Seconds> cloth_saves;
  std::vector<PackRespirator> respirators;
  // What must not be missing and is: each a few words, "acid: 12 g short".
  std::vector<std::string> missing;
  std::string headline;
  // Fit to leave: nothing is missing.
  [[nodiscard]] bool ready() const { return missing.empty(); }
};
[[nodiscard]] PackList pack_for(const Farm& farm, const BatteryModel& model, const PackAsk& ask);

// Of what is missing, the acid and the charge: what a walk uses up.
[[nodiscard]] std::vector<std::string> stock_missing(const Farm& farm, const PackList& list);
// "One more cloth would save 6 min of the evening."; empty when nobody asked, or below a minute.
[[nodiscard]] std::string cloth_words(const PackList& list);
// "2 full batteries last for it with 95 % (common practice); 1 full and 1 begun: 88 %."
[[nodiscard]] std::string battery_words(const PackBatteries& batteries);
// "half mask: 3 h left of the hours in Setup", "half mask: worn 3 h 10 min; ..."
[[nodiscard]] std::string respirator_words(const Farm& farm, const PackRespirator& respirator);
// Rinse water, water against fire, protection: what the kit does not count.
[[nodiscard]] const std::vector<std::string>& pack_always();

}  // namespace engine
