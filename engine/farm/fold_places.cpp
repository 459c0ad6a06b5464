// Yards and colonies come, change and go.
#include <algorithm>
#include <cassert>

#include "engine/farm/fold_kinds.h"

namespace engine {
namespace {

// A yard or colony that is there already was added on another tablet too, from the same sheet: what
// nobody had said of it until then is filled in, and the rest stays as it was said first.
void fill(Yard& yard, const YardAdded& e) {
  if (!yard.place) yard.place = e.place;
  if (yard.zone.empty()) yard.zone = e.zone;
  if (yard.note.empty()) yard.note = e.note;
}

}  // namespace

void fold(Farm& f, const Event&, const YardAdded& e) {
  if (const auto there = f.yards.find(e.yard); there != f.yards.end())
    return fill(there->second, e);
  f.yards[e.yard] = {e.yard, e.name, e.place, e.zone, e.note, false};
}

void fold(Farm& f, const Event&, const YardChanged& e) {
  Yard& yard = f.yards.at(e.yard);
  take(yard.name, e.name);
  if (e.place) yard.place = e.place;
  take(yard.zone, e.zone);
  take(yard.note, e.note);
  if (e.gate) yard.gate = e.gate;
  take(yard.address, e.address);
  take(yard.access, e.access);
  take(yard.landowner, e.landowner);
  take(yard.private_note, e.private_note);
}

void fold(Farm& f, const Event&, const YardLost& e) { f.yards.at(e.yard).lost = true; }

namespace {

// A colony without a place in the order comes after those that are there.
constexpr int kOrderNotSaid = 1'000'000;
int order_at_end(const Farm& f) { return kOrderNotSaid + static_cast<int>(f.colonies.size()); }

void come_to(Farm& f, YardId yard, ColonyId colony) {
  std::vector<ColonyId>& there = f.in_yard.change(yard);
  assert(std::is_sorted(there.begin(), there.end()));
  assert(!std::binary_search(there.begin(), there.end(), colony));
  there.insert(std::upper_bound(there.begin(), there.end(), colony), colony);
}

void fill(Colony& colony, const ColonyAdded& e) {
  if (!colony.spot && colony.yard == e.yard) colony.spot = e.spot;
  if (e.order && colony.order >= kOrderNotSaid) colony.order = *e.order;
  if (colony.note.empty()) colony.note = e.note;
  if (colony.sort == ColonySort::Hive) take(colony.sort, e.sort);
}

}  // namespace

void fold(Farm& f, const Event&, const ColonyAdded& e) {
  if (const auto there = f.colonies.find(e.colony); there != f.colonies.end())
    return fill(there->second, e);
  f.colonies[e.colony] = {.id = e.colony,
                          .yard = e.yard,
                          .name = e.name,
                          .brood_boxes = e.brood_boxes,
                          .supers_on = e.supers_on,
                          .spot = e.spot,
                          .order = e.order.value_or(order_at_end(f)),
                          .note = e.note,
                          .sort = e.sort.value_or(ColonySort::Hive)};
  come_to(f, e.yard, e.colony);
}

void fold(Farm& f, const Event&, const ColonyChanged& e) {
  Colony& colony = f.colonies.at(e.colony);
  take(colony.name, e.name);
  take(colony.brood_boxes, e.brood_boxes);
  take(colony.supers_on, e.supers_on);
  if (e.spot) colony.spot = e.spot;
  take(colony.order, e.order);
  take(colony.note, e.note);
  take(colony.sort, e.sort);
  take(colony.queenless, e.queenless);
  take(colony.leaks, e.leaks);
}

void fold(Farm& f, const Event&, const ColonyMoved& e) {
  Colony& colony = f.colonies.at(e.colony);
  [[maybe_unused]] const auto left = std::erase(f.in_yard.change(colony.yard), e.colony);
  assert(left == 1);
  come_to(f, e.to, e.colony);
  colony.yard = e.to;
  colony.spot = e.spot;
  colony.order = order_at_end(f);
}

void fold(Farm& f, const Event&, const ColonyLost& e) {
  Colony& colony = f.colonies.at(e.colony);
  colony.lost = true;
  colony.lost_why = e.reason;
}

}  // namespace engine
