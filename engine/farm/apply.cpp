// One function a kind: what the farm looks like after it.
#include <algorithm>
#include <cassert>

#include "engine/farm/farm.h"
#include "engine/farm/fold.h"
#include "engine/farm/setups.h"
#include "engine/walk/come_back.h"
#include "engine/walk/late.h"

namespace engine {
namespace {

template <class T>
void take(T& field, const std::optional<T>& given) {
  if (given) field = *given;
}

// ---- places ----

// A yard or colony that is there already was added on another tablet too, from the same sheet: what
// nobody had said of it until then is filled in, and the rest stays as it was said first.
void fill(Yard& yard, const YardAdded& e) {
  if (!yard.place) yard.place = e.place;
  if (yard.zone.empty()) yard.zone = e.zone;
  if (yard.note.empty()) yard.note = e.note;
}

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
}

void fold(Farm& f, const Event&, const YardLost& e) { f.yards.at(e.yard).lost = true; }

// A colony without a place in the order comes after those that are there.
constexpr int kOrderNotSaid = 1'000'000;
int order_at_end(const Farm& f) { return kOrderNotSaid + static_cast<int>(f.colonies.size()); }

void come_to(Farm& f, YardId yard, ColonyId colony) {
  std::vector<ColonyId>& there = f.in_yard.change(yard);
  there.insert(std::upper_bound(there.begin(), there.end(), colony), colony);
}

void fill(Colony& colony, const ColonyAdded& e) {
  if (!colony.spot && colony.yard == e.yard) colony.spot = e.spot;
  if (e.order && colony.order >= kOrderNotSaid) colony.order = *e.order;
  if (colony.note.empty()) colony.note = e.note;
}

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
                          .note = e.note};
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
}

void fold(Farm& f, const Event&, const ColonyMoved& e) {
  Colony& colony = f.colonies.at(e.colony);
  std::erase(f.in_yard.change(colony.yard), e.colony);
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

// ---- kit ----

// One that was awaited keeps what was said of it.
void fold(Farm& f, const Event&, const KitAdded& e) {
  KitItem& item = f.kit[e.item];
  item.id = e.item;
  item.sort = e.sort;
  item.name = e.name;
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
  if (vaporizer.battery && e.was_empty) f.kit.at(*vaporizer.battery).needs_charge = true;
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

// A second delivery keeps the proof of purchase of the first.
void add_words(std::string& to, const std::string& more) {
  if (more.empty() || to.find(more) != std::string::npos) return;
  to += to.empty() ? more : "; " + more;
}

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

// On record those of a list that cannot be placed any more are left out.
void place(Farm& f, const std::vector<CourseDates>& courses) {
  for (const CourseDates& c : courses) {
    if (why_not_placed(f, c) != Refusal::None) continue;
    if (c.yard)
      f.courses[c.course] = {c.course, *c.yard, c.rounds, false, {}};
    else
      f.courses.at(c.course).rounds = c.rounds;
  }
}

void fold(Farm& f, const Event&, const CoursesPlanned& e) { place(f, e.courses); }

void fold(Farm& f, const Event&, const FreeEveningsSet& e) { f.evenings.weekly = e.weekdays; }

void fold(Farm& f, const Event&, const EveningChanged& e) { f.evenings.changed[e.on] = e.free; }

void fold(Farm& f, const Event&, const EveningLost& e) {
  f.evenings.lost[e.on] = e.why;
  place(f, e.moved);
}

void fold(Farm& f, const Event&, const DriveTimeSet& e) {
  const YardId from = e.from.value_or(YardId{});
  f.drive_minutes[std::minmax(from, e.to)] = e.minutes;
}

void fold(Farm& f, const Event&, const AirExpected& e) {
  const WhenHome when{e.on, e.part};
  if (e.air)
    f.air_expected[when] = *e.air;
  else
    f.air_expected.erase(when);
}

// On record colonies that are not there any more are left out.
void fold(Farm& f, const Event&, const BroodNoted& e) {
  for (const ColonyId id : e.colonies) {
    const auto colony = f.colonies.find(id);
    if (colony == f.colonies.end()) continue;
    std::vector<BroodNote>& notes = colony->second.brood;
    const auto after = std::upper_bound(notes.begin(), notes.end(), e.on,
                                        [](Date on, const BroodNote& n) { return on < n.on; });
    notes.insert(after, {e.on, e.what});
  }
}

// ---- the walk ----

bool has_reasons(const Farm& f, const Colony& colony) {
  if (!colony.last_walk) return false;
  const Walk& walk = f.walks.at(*colony.last_walk);
  const Stop* stop = find_stop(walk, colony.id);
  return stop != nullptr && !reasons_to_come_back(walk, *stop).empty();
}

// What the walk leaves behind: cloths still on, and colonies it did not reach. A colony with older
// reasons keeps those.
void leave(Farm& f, const Walk& walk) {
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

void fold(Farm& f, const Event& at, const WalkOpened& e) {
  if (const WalkId* before = walk_before(f, at.ref.device)) {
    Walk& walk = f.walks.change(*before);  // it was complete, or its closing was struck
    walk = apply_record(std::move(walk), Event{at.ref, at.stamp, WalkClosed{walk.id}});
    leave(f, walk);
    f.walk_under_way.erase(walk.device);
  }
  f.walks.put(begin(at, of_known(f, e)));
  f.walk_under_way[at.ref.device] = e.walk;
}

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
  take_acid(f, e.lot, e.dose);
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

void fold(Farm& f, const Event& at, const EnteredLate& e) {
  if (f.walks.find(e.walk) == f.walks.end()) f.walks.put(begin_past(at, e));
  Walk& walk = f.walks.change(e.walk);
  const auto left = cloth_left_on(f, e.colony);
  if (!e.passed && left != f.cloths_left.end() && left->second.walk == e.walk)
    f.cloths_left.erase(left);  // it came off before the next setting
  walk = enter_late(std::move(walk), at, e);
  Colony& colony = f.colonies.at(e.colony);
  if (!colony.last_walk || f.walks.at(*colony.last_walk).opened.at <= walk.opened.at)
    colony.last_walk = e.walk;
  if (e.passed) return;
  take_acid(f, e.lot, e.dose);
  note_late_vapor(f, happened_at(at.stamp, e), e);
}

// Of these the walk alone knows.
void after(Farm&, const Event&, const ProtectionConfirmed&) {}
void after(Farm&, const Event&, const BeesFlying&) {}
void after(Farm&, const Event&, const Mishap&) {}
void after(Farm&, const Event&, const WalkPaused&) {}
void after(Farm&, const Event&, const WalkResumed&) {}

template <class Step>
requires(Step::kFacts.is_step()) void fold(Farm& f, const Event& at, const Step& e) {
  Walk& walk = f.walks.change(e.walk);
  walk = apply_record(std::move(walk), at);
  after(f, at, e);
}

// ---- the rest ----

void fold(Farm& f, const Event&, const ComeBackSettled& e) {
  f.colonies.at(e.colony).last_walk.reset();
}

void fold(Farm& f, const Event& at, const OtherTreatmentGiven& e) {
  f.otherwise_treated.change(e.colony).push_back({at.ref, e.on});
}

// Kept in the log, where the register reads them.
void fold(Farm&, const Event&, const NoteWritten&) {}
void fold(Farm&, const Event&, const EntryStruck&) {}
void fold(Farm&, const Event&, const EntryCorrected&) {}  // folded in the place of what it corrects
void fold(Farm&, const Event&, const StrikeTakenBack&) {}
void fold(Farm&, const Event&, const ContradictionSettled&) {}
void fold(Farm&, const Event&, const YardsJoined&) {}  // what they join, the log shows as one
void fold(Farm&, const Event&, const ColoniesJoined&) {}
void fold(Farm&, const Event&, const ClockFollowed&) {}  // its clock is read from the log

void fold(Farm& f, const Event& at, const SetupChanged& e) {
  TabletSetup& tablet = setup_to_change(f, at.ref.device);
  change(tablet.setup, e);
  if (is_offer(e)) tablet.offered = at.ref;
  show_own_setup(f);
}

void fold(Farm& f, const Event& at, const SetupKept& e) {
  setup_to_change(f, at.ref.device).kept.insert(e.entries.begin(), e.entries.end());
}

}  // namespace

void fold_in(Farm& f, const Event& e) {
  std::visit([&](const auto& body) { fold(f, e, body); }, e.body);
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
