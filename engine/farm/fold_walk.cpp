// A walk is opened, walked and closed, or entered afterwards.
#include <algorithm>
#include <cassert>

#include "engine/farm/fold.h"
#include "engine/farm/fold_kinds.h"
#include "engine/walk/come_back.h"
#include "engine/walk/late.h"

namespace engine {
namespace {

bool has_reasons(const Farm& f, const Colony& colony) {
  if (!colony.last_walk) return false;
  const Walk& walk = f.walks.at(*colony.last_walk);
  const Stop* stop = find_stop(walk, colony.id);
  return stop != nullptr && !reasons_to_come_back(walk, *stop).empty();
}

// What the walk leaves behind: cloths still on, and colonies it did not reach. A colony with older
// reasons keeps those.
void leave(Farm& f, const Walk& walk) {
  assert(walk.closed);
  for (const Stop& stop : walk.stops) {
    if (stop.phase == Phase::Covered)
      f.cloths_left[*stop.treatments.back().cloth] = {walk.id, stop.colony};
    Colony& colony = f.colonies.at(stop.colony);
    if (stop.phase == Phase::ToDo && !has_reasons(f, colony)) colony.last_walk = walk.id;
  }
}

// On record colonies that are not there any more are left out.
WalkOpened of_known(const Farm& f, WalkOpened e) {
  const auto gone = [&](ColonyId id) { return !f.colonies.contains(id); };
  std::erase_if(e.colonies, gone);
  if (e.planned) std::erase_if(*e.planned, [&](const PlannedVisit& v) { return gone(v.colony); });
  return e;
}

}  // namespace

void fold(Farm& f, const Event& at, const WalkOpened& e) {
  if (const WalkId* before = walk_before(f, at.ref.device)) {
    Walk& walk = f.walks.change(*before);  // it was complete, or its closing was struck
    const Event closed{at.ref, at.stamp, WalkClosed{walk.id}};
    walk = apply_record(std::move(walk), closed);
    leave(f, walk);
    f.walk_under_way.erase(walk.device);
  }
  f.walks.put(begin(at, of_known(f, e)));
  f.walk_under_way[at.ref.device] = e.walk;
}

namespace {

// A cloth that lay there since an earlier walk came off no later than now.
void take_off(Farm& f, std::map<KitId, ClothLeft>::iterator left, const Stamp& at) {
  Walk& walk = f.walks.change(left->second.walk);
  walk = infer_uncovered(std::move(walk), left->second.colony, at);
  f.cloths_left.erase(left);
}

auto cloth_left_on(Farm& f, ColonyId colony) {
  return std::find_if(f.cloths_left.begin(), f.cloths_left.end(),
                      [&](const auto& left) { return left.second.colony == colony; });
}

void take_acid(Farm& f, const std::optional<LotId>& from, Mass dose) {
  const auto lot = from ? f.lots.find(*from) : f.lots.end();
  if (lot != f.lots.end()) lot->second.used = lot->second.used + dose;
}

void note_kit_use(Farm& f, const VaporizerSet& e) {
  if (const auto v = f.kit.find(e.vaporizer); v != f.kit.end()) ++v->second.settings_since_clean;
  const auto walk = f.walks.find(e.walk);
  take_acid(f, e.lot, walk == f.walks.end() ? e.dose : dose_loaded(walk->second.rules, e.dose));
  const auto battery = e.battery ? f.kit.find(*e.battery) : f.kit.end();
  if (battery == f.kit.end()) return;
  ++battery->second.settings_since_charge;
  battery->second.vaporized_since_charge = battery->second.vaporized_since_charge + e.dose;
}

// All vapor that walks gave the colony on that day.
Mass vapor_on(const Farm& f, ColonyId colony, Date day) {
  Mass sum;
  for (const auto& [id, walk] : f.walks)
    if (const Stop* stop = find_stop(walk, colony); stop != nullptr)
      for (const Treatment& t : stop->treatments)
        if (local_date(t.set_at) == day) sum = sum + t.dose;
  return sum;
}

// Notes it, and says what the colony has had on that day with it: the label's most is for a colony
// and any one day, however much came after. The treatment is in its walk already.
VaporGiven give_vapor(Farm& f, ColonyId id, Mass dose, const Stamp& at, KitId vaporizer) {
  const Date day = local_date(at);
  const auto before = f.vaporized.of(id);
  const auto times = static_cast<int>(
      std::count_if(before.begin(), before.end(), [&](const Vaporized& v) { return v.on == day; }));
  f.vaporized.change(id).push_back({day, vaporizer});
  const std::optional<VaporGiven>& last = f.colonies.at(id).vapor;
  if (last && last->on == day) return {day, last->sum + dose, last->last, last->times + 1};
  return {day, times == 0 ? dose : vapor_on(f, id, day), at, times + 1};
}

void judge_dose(Farm& f, WalkId in, ColonyId id, Mass sum) {
  Walk& walk = f.walks.change(in);
  walk = note_day_sum(std::move(walk), id, sum);
}

void note_vapor(Farm& f, const Event& at, const VaporizerSet& e) {
  VaporGiven given = give_vapor(f, e.colony, e.dose, at.stamp, e.vaporizer);
  given.last = at.stamp;
  judge_dose(f, e.walk, e.colony, given.sum);
  f.colonies.at(e.colony).vapor = given;
}

void after(Farm& f, const Event& at, const VaporizerSet& e) {
  if (const auto left = cloth_left_on(f, e.colony); left != f.cloths_left.end())
    take_off(f, left, at.stamp);
  note_kit_use(f, e);
  note_vapor(f, at, e);
  f.colonies.at(e.colony).last_walk = e.walk;
}

void after(Farm& f, const Event& at, const ColonyCovered& e) {
  if (const auto left = f.cloths_left.find(e.cloth); left != f.cloths_left.end())
    take_off(f, left, at.stamp);
}

void after(Farm& f, const Event&, const ColonyUncovered& e) {
  const auto left = cloth_left_on(f, e.colony);
  if (left != f.cloths_left.end() && left->second.walk == e.walk) f.cloths_left.erase(left);
}

void after(Farm& f, const Event&, const ColonyPassedOver& e) {
  if (cloth_left_on(f, e.colony) == f.cloths_left.end()) f.colonies.at(e.colony).last_walk = e.walk;
}

void after(Farm& f, const Event&, const WalkClosed& e) {
  const Walk& walk = f.walks.at(e.walk);
  assert(walk.closed && walk.id == e.walk);
  f.walk_under_way.erase(walk.device);
  leave(f, walk);
}

// The day of a late entry may lie before the last one with vapor: that one stays.
void note_late_vapor(Farm& f, const Stamp& at, const EnteredLate& e) {
  VaporGiven given = give_vapor(f, e.colony, e.dose, at, {});
  if (given.last.at < at.at) given.last = at;
  judge_dose(f, e.walk, e.colony, given.sum);
  std::optional<VaporGiven>& last = f.colonies.at(e.colony).vapor;
  if (!last || last->on <= given.on) last = given;
}

}  // namespace

void fold(Farm& f, const Event& at, const EnteredLate& e) {
  if (f.walks.find(e.walk) == f.walks.end()) f.walks.put(begin_past(at, e));
  Walk& walk = f.walks.change(e.walk);
  assert(walk.yard == e.yard);
  const auto left = cloth_left_on(f, e.colony);
  if (!e.passed && left != f.cloths_left.end() && left->second.walk == e.walk)
    f.cloths_left.erase(left);  // it came off before the next setting
  walk = enter_late(std::move(walk), at, e);
  Colony& colony = f.colonies.at(e.colony);
  if (!colony.last_walk || f.walks.at(*colony.last_walk).opened.at <= walk.opened.at)
    colony.last_walk = e.walk;
  if (e.passed) return;
  take_acid(f, e.lot, dose_loaded(e.rules, e.dose));
  note_late_vapor(f, happened_at(at.stamp, e), e);
}

namespace {

// Of these the walk alone knows.
void after(Farm&, const Event&, const ProtectionConfirmed&) {}
void after(Farm&, const Event&, const BeesFlying&) {}
void after(Farm&, const Event&, const Mishap&) {}
void after(Farm&, const Event&, const VaporHalted&) {}
void after(Farm&, const Event&, const VaporResumed&) {}
void after(Farm&, const Event&, const WalkPaused&) {}
void after(Farm&, const Event&, const WalkResumed&) {}

}  // namespace

void fold_step(Farm& f, const Event& at) {
  assert(facts_of(at.body).is_step());
  Walk& walk = f.walks.change(*walk_of(at.body));
  walk = apply_record(std::move(walk), at);
  std::visit(
      [&]<class Kind>(const Kind& e) {
        if constexpr (Kind::kFacts.is_step()) after(f, at, e);
      },
      at.body);
}

const WalkId* walk_before(const Farm& f, DeviceId device) {
  for (;;) {
    if (const auto at = f.walk_under_way.find(device); at != f.walk_under_way.end())
      return &at->second;
    const Branch* branch = find_branch(f.branches, device);
    if (branch == nullptr) return nullptr;
    device = branch->after;
  }
}

}  // namespace engine
