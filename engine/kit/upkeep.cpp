#include "engine/kit/upkeep.h"

#include <algorithm>
#include <cmath>

namespace engine {
namespace {

bool usable(const Lot& lot, Date on) {
  return lot.left().mg > 0 && (!lot.expiry || *lot.expiry >= on);
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
