// What is on record stands, although what led up to it was struck since, another tablet knew
// better, or corrected words name what came later. It falls where it could not have happened.
#include <algorithm>
#include <cassert>

#include "engine/farm/farm.h"
#include "engine/farm/fold.h"

namespace engine {
namespace {

bool any_known(const Farm& f, const std::vector<ColonyId>& colonies) {
  return std::any_of(colonies.begin(), colonies.end(),
                     [&](ColonyId id) { return f.colonies.contains(id); });
}

// Whether a part of what the entry names is there, so that the rest does not take it along.
bool is_there_in_part(const Farm& f, const WalkOpened& e) { return any_known(f, e.colonies); }
bool is_there_in_part(const Farm& f, const BroodNoted& e) { return any_known(f, e.colonies); }
bool is_there_in_part(const Farm& f, const CoursesPlanned& e) {
  return std::any_of(e.courses.begin(), e.courses.end(),
                     [&](const CourseDates& c) { return why_not_placed(f, c) == Refusal::None; });
}
// Added by two tablets, and one thing all the same.
bool is_there_in_part(const Farm& f, const YardAdded& e) { return f.yards.contains(e.yard); }
bool is_there_in_part(const Farm& f, const ColonyAdded& e) { return f.colonies.contains(e.colony); }

// Recorded facts that stand although an entry before them was struck since, or another tablet
// knew better. Only for a reason behind which why_it_does_not_fit asks nothing more.
bool stands_on_record(const Farm& f, const Body& body, Refusal why) {
  const KindFacts& facts = facts_of(body);
  if (why == Refusal::YardIsLost || why == Refusal::ColonyIsLost) return facts.says != Says::Loss;
  if (facts.stands_against.has(why)) return true;
  if (!facts.stands_in_part.has(why)) return false;
  return std::visit(
      [&]<class Kind>(const Kind& e) {
        if constexpr (Kind::kFacts.stands_in_part.any())
          return is_there_in_part(f, e);
        else
          return false;
      },
      body);
}

// ---- corrected words that name what came later ----

void await_lot(Farm& f, std::size_t place, const std::optional<LotId>& lot) {
  if (lot && !f.lots.contains(*lot) && lot_comes(f.log, place, *lot)) f.lots[*lot].id = *lot;
}

void await_battery(Farm& f, std::size_t place, const std::optional<KitId>& battery) {
  if (battery && !f.kit.contains(*battery) && battery_comes(f.log, place, *battery))
    f.kit[*battery] = {.id = *battery, .sort = KitSort::Battery};
}

// What the words of a correction take from a lot or a battery is kept for when that comes.
struct AwaitThings {
  Farm& f;
  std::size_t place;

  void operator()(const VaporizerSet& e) const {
    await_lot(f, place, e.lot);
    await_battery(f, place, e.battery);
  }
  void operator()(const EnteredLate& e) const { await_lot(f, place, e.lot); }
  void operator()(const AcidDisposed& e) const { await_lot(f, place, e.lot); }
  void operator()(const NoteWritten&) const {}
  void operator()(const ColonyPassedOver&) const {}
  void operator()(const CountTaken&) const {}
  void operator()(const BroodNoted&) const {}
  void operator()(const OtherTreatmentGiven&) const {}
  void operator()(const StockReceived&) const {}
};

// Whether the yard or colony that the words name comes later. That does for words which leave
// nothing in the yard or colony itself: it is the last thing that why_it_does_not_fit asks for.
struct MayWait {
  const Farm& f;
  std::size_t place;

  bool operator()(const CountTaken& e) const { return colony_comes(f, place, e.colony); }
  bool operator()(const OtherTreatmentGiven& e) const { return colony_comes(f, place, e.colony); }
  bool operator()(const NoteWritten& e) const {
    const bool yard = !e.yard || f.yards.contains(*e.yard) || yard_comes(f.log, place, *e.yard);
    const bool colony =
        !e.colony || f.colonies.contains(*e.colony) || colony_comes(f, place, *e.colony);
    return yard && colony;
  }
  bool operator()(const VaporizerSet&) const { return false; }
  bool operator()(const ColonyPassedOver&) const { return false; }
  bool operator()(const EnteredLate&) const { return false; }
  bool operator()(const BroodNoted&) const { return false; }
  bool operator()(const StockReceived&) const { return false; }
  bool operator()(const AcidDisposed&) const { return false; }
};

bool may_wait(const Farm& f, std::size_t place, const Replacement& words, Refusal why) {
  if (why != Refusal::NoSuchColony && why != Refusal::NoSuchYard) return false;
  return std::visit(MayWait{f, place}, words.body());
}

}  // namespace

Refusal fold_if_it_fits(Farm& f, const Event& e) {
  const Refusal fallen = why_it_does_not_fit(f, e);
  if (fallen != Refusal::None && !stands_on_record(f, e.body, fallen)) return fallen;
  fold_in(f, e);
  return Refusal::None;
}

void fold_corrected(Farm& f, std::size_t own, const Entry& entry) {
  assert(entry.struck);
  const auto place = correction_place(f.log, entry);
  if (!place) return;
  const Entry by = f.log.copy(*place);
  const Replacement& words = std::get<EntryCorrected>(by.event.body).instead;
  const Event then{entry.event.ref, entry.event.stamp, body_of(words)};
  std::visit(AwaitThings{f, own}, words.body());
  Refusal fallen = fold_if_it_fits(f, then);
  if (may_wait(f, own, words, fallen)) {
    fold_in(f, then);
    fallen = Refusal::None;
  }
  f.log.set_fallen(*place, fallen);
}

}  // namespace engine
