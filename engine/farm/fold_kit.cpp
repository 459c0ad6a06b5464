// Vaporizers, cloths, batteries, respirators and acid.
#include <cassert>

#include "engine/farm/fold_kinds.h"

namespace engine {
// One that was awaited keeps what was said of it.
void fold(Farm& f, const Event&, const KitAdded& e) {
  KitItem& item = f.kit[e.item];
  item.id = e.item;
  item.sort = e.sort;
  item.name = e.name;
  if (e.watt_hours) item.watt_hours = e.watt_hours;
}

void fold(Farm& f, const Event&, const KitChanged& e) {
  KitItem& item = f.kit.at(e.item);
  take(item.name, e.name);
  take(item.retired, e.retired);
  if (e.watt_hours) item.watt_hours = e.watt_hours;
  if (e.fit_tested) item.fit_tested = e.fit_tested;
}

void fold(Farm& f, const Event&, const BatteryChanged& e) {
  for (auto& [id, item] : f.kit)
    if (item.battery == e.battery) item.battery.reset();
  KitItem& vaporizer = f.kit.at(e.vaporizer);
  assert(vaporizer.sort == KitSort::Vaporizer);
  if (vaporizer.battery && e.was_empty) f.kit.at(*vaporizer.battery).needs_charge = true;
  vaporizer.battery = e.battery;
}

void fold(Farm& f, const Event&, const BatteryCharged& e) {
  KitItem& battery = f.kit.at(e.battery);
  assert(battery.sort == KitSort::Battery);
  battery.needs_charge = false;
  battery.settings_since_charge = 0;
  battery.vaporized_since_charge = {};
}

void fold(Farm& f, const Event&, const VaporizerCleaned& e) {
  f.kit.at(e.vaporizer).settings_since_clean = 0;
}

void fold(Farm& f, const Event& at, const FilterChanged& e) {
  KitItem& respirator = f.kit.at(e.respirator);
  assert(respirator.sort == KitSort::Respirator);
  respirator.cartridge = e.cartridge;
  respirator.cartridge_since = at.stamp;
  respirator.cartridge_last = e.last_day;
}

namespace {

// A second delivery keeps the proof of purchase of the first.
void add_words(std::string& to, const std::string& more) {
  if (more.empty() || to.find(more) != std::string::npos) return;
  to += to.empty() ? more : "; " + more;
}

}  // namespace

void fold(Farm& f, const Event&, const StockReceived& e) {
  Lot& lot = f.lots[e.lot];
  lot.id = e.lot;
  lot.product = e.product;
  lot.registration = e.registration;
  lot.code = e.code;
  if (e.expiry) lot.expiry = e.expiry;
  add_words(lot.supplier, e.supplier);
  add_words(lot.receipt, e.receipt);
  lot.received = lot.received + e.amount;
  if (e.supplier_address) add_words(lot.supplier_address, *e.supplier_address);
}

void fold(Farm& f, const Event&, const AcidDisposed& e) {
  Lot& lot = f.lots.at(e.lot);
  lot.disposed = lot.disposed + e.amount;
}

}  // namespace engine
