// engine/rules/label.h -- the rules of one registered label, and the grams that follow from it.
//
// A label profile is data (assets/labels/*.json) that a keeper edits to match the label in hand,
// which always decides. The numbers a walk was run under are copied into its first event, so that
// the journal replays by itself when a profile changes later.
#pragma once
#include <optional>
#include <string>

#include "engine/core/instant.h"
#include "engine/core/terms.h"
#include "engine/core/units.h"
#include "engine/rules/limits.h"

namespace engine {

struct LabelRules {
  std::string profile;             // which profile file these came from
  std::string product;             // as the label names it; generic when the keeper has not said
  std::string registration;        // number on the label; empty when not entered
  Basis basis = Basis::Dihydrate;  // what the grams below are grams of
  std::optional<Mass> dihydrate_per_gram;  // of product, when basis is Product
  Mass per_brood_box;                      // what the prompt multiplies
  std::optional<Mass> most_per_brood_box;  // the label's most, times brood boxes
  std::optional<Mass> most_per_colony;     // the label's most whatever the boxes
  Supers supers = Supers::Unknown;
  std::string cartridge;  // what the respirator must be fitted with
  int withdrawal_days = 0;
  Seconds dwell_goal{90};   // common practice: setting to recovered heat
  Seconds dwell_least{60};  // a shorter dwell is called short
  Seconds seal_goal{600};   // common practice: ten minutes closed
  Seconds seal_least{180};  // a shorter seal is called short: less than three cloths give
                            // when nobody waits (common practice: 3 to 5 minutes)
  std::optional<LabelLimits> limits{};  // none: of an earlier version, all unknown

  friend bool operator==(const LabelRules&, const LabelRules&) = default;

  template <class Self, class F>
  static void fields(Self& s, F&& f) {
    f("profile", s.profile), f("product", s.product), f("registration", s.registration);
    f("basis", s.basis), f("dihydrate_per_gram", s.dihydrate_per_gram);
    f("per_brood_box", s.per_brood_box), f("most_per_brood_box", s.most_per_brood_box);
    f("most_per_colony", s.most_per_colony), f("supers", s.supers), f("cartridge", s.cartridge);
    f("withdrawal_days", s.withdrawal_days), f("dwell_goal", s.dwell_goal);
    f("dwell_least", s.dwell_least), f("seal_goal", s.seal_goal), f("seal_least", s.seal_least);
    f("limits", s.limits);
  }
};

// No entry takes more for one colony, whatever its boxes and its label. The trial that saw harm
// gave 0, 5, 10 and 20 g to a COLONY, and 20 g did harm (Front. Bee Sci. 2024,
// 10.3389/frbee.2024.1442030).
inline constexpr Mass kMostEntered{10'000};

// One line that names the field a profile has wrong, or empty: grams are positive and at most
// 20 g a box (the dose at which a trial saw harm: Front. Bee Sci.
// 2024, 10.3389/frbee.2024.1442030), leasts are not above goals, times are within an hour.
[[nodiscard]] std::string what_is_wrong(const LabelRules& rules);

// The most one colony of so many brood boxes may get under the label; nullopt: the label sets none.
[[nodiscard]] std::optional<Mass> label_most(const LabelRules& rules, int brood_boxes);

// What to load: grams per brood box times brood boxes, never above the label's most or
// kMostEntered.
[[nodiscard]] Mass prompted_dose(const LabelRules& rules, int brood_boxes);

[[nodiscard]] bool over_label(const LabelRules& rules, Mass dose, int brood_boxes);

// Oxalic acid without its crystal water: 90.034 / 126.065 of the dihydrate (molar masses in g/mol
// of CAS 144-62-7 and 6153-56-6), rounded to the milligram.
[[nodiscard]] Mass anhydrous(Mass dihydrate);

// The dihydrate in a dose on its own basis; nullopt when a product's strength is not known.
[[nodiscard]] std::optional<Mass> dihydrate(const LabelRules& rules, Mass dose);

// Grams that are taken off the shelf and lie in the pan: a dose given as anhydrous acid is loaded
// as dihydrate, any other as it is.
[[nodiscard]] Mass dose_loaded(const LabelRules& rules, Mass dose);

}  // namespace engine
