#include "engine/kit/upkeep.h"

#include <algorithm>
#include <cmath>

namespace engine {
namespace {

bool usable(const Lot& lot, Date on) {
  return lot.left().mg > 0 && (!lot.expiry || *lot.expiry >= on);
}

Mass charge_left(const KitItem& battery) {
  return {std::max<std::int64_t>(0, kMassPerCharge.mg - battery.vaporized_since_charge.mg)};
}

Mass acid_for(const std::vector<const Colony*>& colonies, const LabelRules& rules) {
  Mass sum;
  for (const Colony* c : colonies) sum = sum + prompted_dose(rules, c->brood_boxes);
  return {std::llround(static_cast<double>(sum.mg) * kSpareAcid)};
}

// From the first setting to the last moment somebody stood at a hive with vapor about.
Ms worn_in(const Walk& w) {
  const Treatment* first = nullptr;
  for (const Stop& stop : w.stops)
    for (const Treatment& t : stop.treatments)
      if (first == nullptr || t.entry < first->entry) first = &t;
  Ms longest{};
  const auto look = [&](const Stamp& s) {
    longest = std::max(longest, elapsed(first->set_at, s).length);
  };
  for (const Stop& stop : w.stops)
    for (const Treatment& t : stop.treatments) {
      look(t.set_at);
      if (t.lifted_at) look(*t.lifted_at);
      if (t.uncovered_at) look(*t.uncovered_at);
    }
  return longest;
}

}  // namespace

Ms cartridge_worn(const Farm& farm, const KitItem& respirator) {
  Ms worn{};
  for (const auto& [id, walk] : farm.walks)
    if (walk.respirator == respirator.id &&
        (!respirator.cartridge_since || walk.opened.at >= respirator.cartridge_since->at))
      worn += worn_in(walk);
  return worn;
}

std::optional<Ms> cartridge_left(const Farm& farm, const KitItem& respirator) {
  if (!farm.setup.cartridge_hours) return std::nullopt;
  const Ms most = std::chrono::hours(*farm.setup.cartridge_hours);
  return std::max(Ms{}, most - cartridge_worn(farm, respirator));
}

int settings_between_cleanings(const Setup& setup) {
  return setup.clean_every.value_or(kSettingsBetweenCleanings);
}

bool cleaning_due(const Setup& setup, const KitItem& vaporizer) {
  return vaporizer.settings_since_clean >= settings_between_cleanings(setup);
}

bool KitNeed::enough() const {
  return acid_on_hand >= acid && charged > 0 && charge_left >= acid && vaporizers > 0 &&
         cloths > 0 && respirators > 0;
}

KitNeed need_for(const Farm& farm, const std::vector<const Colony*>& colonies,
                 const LabelRules& rules, Date on) {
  KitNeed need;
  need.colonies = static_cast<int>(colonies.size());
  need.acid = acid_for(colonies, rules);
  for (const auto& [id, lot] : farm.lots)
    if (usable(lot, on)) need.acid_on_hand = need.acid_on_hand + lot.left();
  need.charges = static_cast<int>((need.acid.mg + kMassPerCharge.mg - 1) / kMassPerCharge.mg);
  for (const KitItem* b : kit_of(farm, KitSort::Battery))
    if (!b->needs_charge) {
      ++need.charged;
      need.charge_left = need.charge_left + charge_left(*b);
    }
  need.vaporizers = static_cast<int>(kit_of(farm, KitSort::Vaporizer).size());
  need.cloths = static_cast<int>(kit_of(farm, KitSort::Cloth).size());
  need.respirators = static_cast<int>(kit_of(farm, KitSort::Respirator).size());
  return need;
}

std::vector<const Lot*> lots_to_use(const Farm& farm, Date on) {
  std::vector<const Lot*> list;
  for (const auto& [id, lot] : farm.lots)
    if (usable(lot, on)) list.push_back(&lot);
  std::stable_sort(list.begin(), list.end(), [](const Lot* a, const Lot* b) {
    if (a->expiry.has_value() != b->expiry.has_value()) return a->expiry.has_value();
    return a->expiry && *a->expiry < *b->expiry;
  });
  return list;
}

const Lot* next_lot(const Farm& farm, Date on) {
  const std::vector<const Lot*> list = lots_to_use(farm, on);
  return list.empty() ? nullptr : list.front();
}

}  // namespace engine
