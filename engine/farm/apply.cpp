// One function a kind: what the farm looks like after it.
#include <algorithm>
#include <cassert>

#include "engine/farm/farm.h"
#include "engine/farm/fold.h"

namespace engine {
namespace {

template <class T>
void take(T& field, const std::optional<T>& given) {
  if (given) field = *given;
}

// ---- places ----

void fold(Farm& f, const Event&, const YardAdded& e) {
  f.yards[e.yard] = {e.yard, e.name, e.place, e.zone, e.note, false};
}

void fold(Farm& f, const Event&, const YardChanged& e) {
  Yard& yard = f.yards.at(e.yard);
  take(yard.name, e.name);
  if (e.place) yard.place = e.place;
  take(yard.zone, e.zone);
  take(yard.note, e.note);
}

void fold(Farm& f, const Event&, const YardLost& e) { f.yards.at(e.yard).lost = true; }

// A colony without a place in the order comes after those that are there.
int order_at_end(const Farm& f) { return 1'000'000 + static_cast<int>(f.colonies.size()); }

void fold(Farm& f, const Event&, const ColonyAdded& e) {
  f.colonies[e.colony] = {.id = e.colony,
                          .yard = e.yard,
                          .name = e.name,
                          .brood_boxes = e.brood_boxes,
                          .supers_on = e.supers_on,
                          .spot = e.spot,
                          .order = e.order.value_or(order_at_end(f)),
                          .note = e.note};
}

void fold(Farm& f, const Event&, const ColonyChanged& e) {
  Colony& colony = f.colonies.at(e.colony);
  take(colony.name, e.name);
  take(colony.brood_boxes, e.brood_boxes);
  take(colony.supers_on, e.supers_on);
  if (e.spot) colony.spot = e.spot;
  take(colony.order, e.order);
  take(colony.note, e.note);
}

void fold(Farm& f, const Event&, const ColonyMoved& e) {
  Colony& colony = f.colonies.at(e.colony);
  colony.yard = e.to;
  colony.spot = e.spot;
  colony.order = order_at_end(f);
}

void fold(Farm& f, const Event&, const ColonyLost& e) {
  Colony& colony = f.colonies.at(e.colony);
  colony.lost = true;
  colony.lost_why = e.reason;
}

// ---- kit ----

void fold(Farm& f, const Event&, const KitAdded& e) {
  f.kit[e.item] = {.id = e.item, .sort = e.sort, .name = e.name};
}

void fold(Farm& f, const Event&, const KitChanged& e) {
  KitItem& item = f.kit.at(e.item);
  take(item.name, e.name);
  take(item.retired, e.retired);
}

void fold(Farm& f, const Event&, const BatteryChanged& e) {
  for (auto& [id, item] : f.kit)
    if (item.battery == e.battery) item.battery.reset();
  KitItem& vaporizer = f.kit.at(e.vaporizer);
  if (vaporizer.battery) f.kit.at(*vaporizer.battery).needs_charge = true;
  vaporizer.battery = e.battery;
}

void fold(Farm& f, const Event&, const BatteryCharged& e) {
  KitItem& battery = f.kit.at(e.battery);
  battery.needs_charge = false;
  battery.settings_since_charge = 0;
  battery.vaporized_since_charge = {};
}

void fold(Farm& f, const Event&, const VaporizerCleaned& e) {
  f.kit.at(e.vaporizer).settings_since_clean = 0;
}

void fold(Farm& f, const Event& at, const FilterChanged& e) {
  KitItem& respirator = f.kit.at(e.respirator);
  respirator.cartridge = e.cartridge;
  respirator.cartridge_since = at.stamp;
}

void fold(Farm& f, const Event&, const StockReceived& e) {
  Lot& lot = f.lots[e.lot];
  lot.id = e.lot;
  lot.product = e.product;
  lot.registration = e.registration;
  lot.code = e.code;
  lot.expiry = e.expiry;
  lot.supplier = e.supplier;
  lot.receipt = e.receipt;
  lot.received = lot.received + e.amount;
}

// ---- season ----

void fold(Farm& f, const Event& at, const CountTaken& e) { f.counts.push_back({at.ref, e}); }

void fold(Farm& f, const Event&, const CoursePlanned& e) {
  f.courses[e.course] = {e.course, e.yard, e.rounds, false, {}};
}

void fold(Farm& f, const Event&, const CourseChanged& e) {
  f.courses.at(e.course).rounds = e.rounds;
}

void fold(Farm& f, const Event&, const CourseEnded& e) {
  f.courses.at(e.course).ended = true;
  f.courses.at(e.course).end_reason = e.reason;
}

// ---- the walk ----

void fold(Farm& f, const Event& at, const WalkOpened& e) {
  if (const auto before = f.walk_under_way.find(at.ref.device); before != f.walk_under_way.end())
    f.walks.at(before->second).closed = at.stamp;  // it was complete, and this one begins
  f.walks[e.walk] = begin(at, e);
  f.walk_under_way[at.ref.device] = e.walk;
  for (const ColonyId colony : e.colonies) f.colonies.at(colony).last_walk = e.walk;
}

void note_kit_use(Farm& f, const VaporizerSet& e) {
  ++f.kit.at(e.vaporizer).settings_since_clean;
  if (e.lot) f.lots.at(*e.lot).used = f.lots.at(*e.lot).used + e.dose;
  if (!e.battery) return;
  KitItem& battery = f.kit.at(*e.battery);
  ++battery.settings_since_charge;
  battery.vaporized_since_charge = battery.vaporized_since_charge + e.dose;
}

template <class WalkKind>
requires requires(const WalkKind& e) { e.walk; }
void fold(Farm& f, const Event& at, const WalkKind& e) {
  Walk& walk = f.walks.at(e.walk);
  walk = apply(std::move(walk), at);
  if constexpr (std::is_same_v<WalkKind, VaporizerSet>) {
    note_kit_use(f, e);
    f.colonies.at(e.colony).last_walk = e.walk;
  }
  if constexpr (std::is_same_v<WalkKind, WalkClosed>) f.walk_under_way.erase(walk.device);
}

// ---- the rest ----

void fold(Farm& f, const Event&, const ComeBackSettled& e) {
  f.colonies.at(e.colony).last_walk.reset();
}

// Kept in the log, where the register reads them.
void fold(Farm&, const Event&, const OtherTreatmentGiven&) {}
void fold(Farm&, const Event&, const NoteWritten&) {}
void fold(Farm&, const Event&, const EntryStruck&) {}

void fold(Farm& f, const Event&, const SetupChanged& e) {
  take(f.setup.operator_name, e.operator_name);
  take(f.setup.operator_address, e.operator_address);
  take(f.setup.temperature_unit, e.temperature_unit);
  take(f.setup.mass_unit, e.mass_unit);
  take(f.setup.theme, e.theme);
  if (e.rules) f.setup.rules = e.rules;
}

void fold(Farm& f, const Event& e) {
  std::visit([&](const auto& body) { fold(f, e, body); }, e.body);
}

// Everything once more from the beginning, without the entries that are struck. An entry that
// stood on a struck one falls, unless it fits all the same.
Farm fold_again(Farm old) {
  Farm f;
  f.last_seq = std::move(old.last_seq);
  f.log_index = std::move(old.log_index);
  for (Entry& entry : old.log) {
    if (entry.struck) continue;
    entry.fallen = Refusal::None;
    if (std::holds_alternative<EntryStruck>(entry.event.body)) continue;
    entry.fallen = why_it_does_not_fit(f, entry.event);
    if (entry.fallen == Refusal::None) fold(f, entry.event);
  }
  f.log = std::move(old.log);
  return f;
}

}  // namespace

Farm apply(Farm farm, const Event& e) {
  assert(why_not(farm, e) == Refusal::None);
  farm.last_seq[e.ref.device] = e.ref.seq;
  farm.log_index[e.ref] = farm.log.size();
  farm.log.push_back({e, {}, Refusal::None});
  const auto* strike = std::get_if<EntryStruck>(&e.body);
  if (strike == nullptr) {
    fold(farm, e);
    return farm;
  }
  farm.log[farm.log_index.at(strike->entry)].struck = Struck{e.ref, strike->reason, e.stamp};
  return fold_again(std::move(farm));
}

}  // namespace engine
