// What speaks against entries of kit and acid.
#include "engine/farm/why_not_kinds.h"

namespace engine {

namespace {

bool watt_hours_in_range(const std::optional<int>& n) { return !n || (*n >= 1 && *n <= 5000); }

}  // namespace

Refusal why_not(const Farm& f, const KitAdded& e) {
  if (!watt_hours_in_range(e.watt_hours)) return Refusal::OutOfRange;
  const KitItem* there = find(f.kit, e.item);
  if (e.item.empty() || (there != nullptr && !is_awaited(*there))) return Refusal::AlreadyThere;
  return e.name.empty() ? Refusal::NameMissing : Refusal::None;
}

Refusal why_not(const Farm& f, const KitChanged& e) {
  if (find(f.kit, e.item) == nullptr) return Refusal::NoSuchKit;
  if (!watt_hours_in_range(e.watt_hours) || (e.fit_tested && !e.fit_tested->ok()))
    return Refusal::OutOfRange;
  return e.name && e.name->empty() ? Refusal::NameMissing : Refusal::None;
}

Refusal why_not(const Farm& f, const BatteryChanged& e) {
  if (const Refusal r = kit_of_sort(f, e.vaporizer, KitSort::Vaporizer); r != Refusal::None)
    return r;
  return kit_of_sort(f, e.battery, KitSort::Battery);
}

Refusal why_not(const Farm& f, const BatteryCharged& e) {
  return kit_of_sort(f, e.battery, KitSort::Battery);
}

Refusal why_not(const Farm& f, const VaporizerCleaned& e) {
  return kit_of_sort(f, e.vaporizer, KitSort::Vaporizer);
}

Refusal why_not(const Farm& f, const FilterChanged& e) {
  if (e.last_day && !e.last_day->ok()) return Refusal::OutOfRange;
  return kit_of_sort(f, e.respirator, KitSort::Respirator);
}

Refusal why_not(const Farm&, const StockReceived& e) {
  if (e.lot.empty()) return Refusal::NoSuchLot;
  if ((e.expiry && !e.expiry->ok()) || (e.on && !e.on->ok())) return Refusal::OutOfRange;
  return e.amount.mg > 0 ? Refusal::None : Refusal::OutOfRange;
}

Refusal why_not(const Farm& f, const AcidDisposed& e) {
  if (find(f.lots, e.lot) == nullptr) return Refusal::NoSuchLot;
  return e.on.ok() && e.amount.mg > 0 ? Refusal::None : Refusal::OutOfRange;
}

}  // namespace engine
