#include "engine/rules/label.h"

#include <algorithm>

namespace engine {
namespace {

constexpr Mass kHarmPerBox{20'000};
constexpr std::int64_t kDihydrateMolar = 126'065;  // mg/mol * 1000
constexpr std::int64_t kAnhydrousMolar = 90'034;

std::int64_t rounded(std::int64_t numerator, std::int64_t denominator) {
  return (2 * numerator + denominator) / (2 * denominator);
}

bool within_an_hour(Seconds s) { return s > Seconds{0} && s <= Seconds{3600}; }
// A kilogram is beyond any hive, and far from where sums of milligrams overflow.
bool sane(const std::optional<Mass>& m) { return !m || (m->mg > 0 && m->mg <= 1'000'000); }

}  // namespace

std::string what_is_wrong(const LabelRules& r) {
  if (r.per_brood_box.mg <= 0) return "per_brood_box: grams must be above zero";
  if (r.per_brood_box > kHarmPerBox)
    return "per_brood_box: above 20 g a box, a dose that harms bees";
  if (!sane(r.most_per_brood_box)) return "most_per_brood_box: must be above 0 and at most 1000 g";
  if (!sane(r.most_per_colony)) return "most_per_colony: must be above 0 and at most 1000 g";
  if (!sane(r.dihydrate_per_gram) || (r.dihydrate_per_gram && r.dihydrate_per_gram->mg > 1000))
    return "dihydrate_per_gram: must be above 0 and at most 1000 mg";
  if (r.withdrawal_days < 0 || r.withdrawal_days > 365) return "withdrawal_days: must be 0 to 365";
  if (!within_an_hour(r.dwell_goal)) return "dwell_goal: must be 1 to 3600 s";
  if (!within_an_hour(r.seal_goal)) return "seal_goal: must be 1 to 3600 s";
  if (r.dwell_least < Seconds{0} || r.dwell_least > r.dwell_goal)
    return "dwell_least: must be 0 to the dwell goal";
  if (r.seal_least < Seconds{0} || r.seal_least > r.seal_goal)
    return "seal_least: must be 0 to the seal goal";
  return r.limits ? what_is_wrong(*r.limits) : std::string();
}

std::optional<Mass> label_most(const LabelRules& rules, int brood_boxes) {
  std::optional<Mass> most = rules.most_per_colony;
  if (rules.most_per_brood_box) {
    const Mass by_box = *rules.most_per_brood_box * brood_boxes;
    most = most ? std::min(*most, by_box) : by_box;
  }
  return most;
}

Mass prompted_dose(const LabelRules& rules, int brood_boxes) {
  const Mass wanted = std::min(rules.per_brood_box * brood_boxes, kMostEntered);
  const auto most = label_most(rules, brood_boxes);
  return most ? std::min(wanted, *most) : wanted;
}

bool over_label(const LabelRules& rules, Mass dose, int brood_boxes) {
  const auto most = label_most(rules, brood_boxes);
  return most && dose > *most;
}

Mass anhydrous(Mass dihydrate) {
  return {rounded(dihydrate.mg * kAnhydrousMolar, kDihydrateMolar)};
}

std::optional<Mass> dihydrate(const LabelRules& rules, Mass dose) {
  switch (rules.basis) {
    case Basis::Dihydrate:
      return dose;
    case Basis::Anhydrous:
      return Mass{rounded(dose.mg * kDihydrateMolar, kAnhydrousMolar)};
    case Basis::Product:
      if (!rules.dihydrate_per_gram) return std::nullopt;
      return Mass{rounded(dose.mg * rules.dihydrate_per_gram->mg, 1000)};
  }
  return std::nullopt;
}

Mass dose_loaded(const LabelRules& rules, Mass dose) {
  return rules.basis == Basis::Anhydrous ? dihydrate(rules, dose).value_or(dose) : dose;
}

}  // namespace engine
