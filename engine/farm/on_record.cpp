// What is on record stands, although what led up to it was struck since, another tablet knew
// better, or corrected words name what came later. It falls where it could not have happened.
#include <algorithm>

#include "engine/farm/farm.h"
#include "engine/farm/fold.h"

namespace engine {
namespace {

bool any_known(const Farm& f, const std::vector<ColonyId>& colonies) {
  return std::any_of(colonies.begin(), colonies.end(),
                     [&](ColonyId id) { return f.colonies.contains(id); });
}

// Of what names many a part that is not there does not take the others along.
bool stands_in_part(const Farm& f, const Body& body, Refusal why) {
  if (const auto* o = std::get_if<WalkOpened>(&body))
    return why == Refusal::NoSuchColony && any_known(f, o->colonies);
  if (const auto* b = std::get_if<BroodNoted>(&body))
    return why == Refusal::NoSuchColony && any_known(f, b->colonies);
  const bool not_placed =
      why == Refusal::NoSuchCourse || why == Refusal::NoSuchYard || why == Refusal::AlreadyThere;
  if (std::holds_alternative<EveningLost>(body)) return not_placed;
  const auto* planned = std::get_if<CoursesPlanned>(&body);
  return planned != nullptr && not_placed &&
         std::any_of(planned->courses.begin(), planned->courses.end(),
                     [&](const CourseDates& c) { return why_not_placed(f, c) == Refusal::None; });
}

// Added by two tablets, and one thing all the same.
bool added_before(const Farm& f, const Body& body) {
  if (const auto* yard = std::get_if<YardAdded>(&body)) return f.yards.contains(yard->yard);
  const auto* colony = std::get_if<ColonyAdded>(&body);
  return colony != nullptr && f.colonies.contains(colony->colony);
}

// Recorded facts that stand although an entry before them was struck since, or another tablet
// knew better. Only for a reason behind which why_it_does_not_fit asks nothing more.
bool stands_on_record(const Farm& f, const Body& body, Refusal why) {
  const bool loss =
      std::holds_alternative<YardLost>(body) || std::holds_alternative<ColonyLost>(body);
  if (why == Refusal::AlreadyThere && added_before(f, body)) return true;
  if (why == Refusal::YardIsLost || why == Refusal::ColonyIsLost) return !loss;
  if (std::holds_alternative<WalkOpened>(body) &&
      (why == Refusal::AnotherWalkUnderWay || why == Refusal::NoSuchCourse))
    return true;
  if (std::holds_alternative<EnteredLate>(body)) return why == Refusal::AnotherWalkUnderWay;
  return stands(body, why) || stands_in_part(f, body, why);
}

// ---- corrected words that name what came later ----

void await_lot(Farm& f, std::size_t place, const std::optional<LotId>& lot) {
  if (lot && !f.lots.contains(*lot) && lot_comes(f.log, place, *lot)) f.lots[*lot].id = *lot;
}

void await_battery(Farm& f, std::size_t place, const std::optional<KitId>& battery) {
  if (battery && !f.kit.contains(*battery) && battery_comes(f.log, place, *battery))
    f.kit[*battery] = {.id = *battery, .sort = KitSort::Battery};
}

// What the words take from a lot or a battery is kept for when that comes.
void await_things(Farm& f, std::size_t place, const Body& words) {
  if (const auto* s = std::get_if<VaporizerSet>(&words)) {
    await_lot(f, place, s->lot);
    await_battery(f, place, s->battery);
  }
  if (const auto* late = std::get_if<EnteredLate>(&words)) await_lot(f, place, late->lot);
  if (const auto* gone = std::get_if<AcidDisposed>(&words)) await_lot(f, place, gone->lot);
}

// These leave nothing in the colony or yard itself, so that it may come later; it is the last
// thing that why_it_does_not_fit asks for.
bool may_wait(const Farm& f, std::size_t place, const Body& words, Refusal why) {
  if (why != Refusal::NoSuchColony && why != Refusal::NoSuchYard) return false;
  if (const auto* c = std::get_if<CountTaken>(&words)) return colony_comes(f, place, c->colony);
  if (const auto* o = std::get_if<OtherTreatmentGiven>(&words))
    return colony_comes(f, place, o->colony);
  const auto* note = std::get_if<NoteWritten>(&words);
  if (note == nullptr) return false;
  const bool yard =
      !note->yard || f.yards.contains(*note->yard) || yard_comes(f.log, place, *note->yard);
  const bool colony =
      !note->colony || f.colonies.contains(*note->colony) || colony_comes(f, place, *note->colony);
  return yard && colony;
}

}  // namespace

Refusal fold_if_it_fits(Farm& f, const Event& e) {
  const Refusal fallen = why_it_does_not_fit(f, e);
  if (fallen != Refusal::None && !stands_on_record(f, e.body, fallen)) return fallen;
  fold_in(f, e);
  return Refusal::None;
}

void fold_corrected(Farm& f, std::size_t own, const Entry& entry) {
  const auto place = correction_place(f.log, entry);
  if (!place) return;
  const Entry by = f.log.copy(*place);
  const Event then{entry.event.ref, entry.event.stamp,
                   body_of(std::get<EntryCorrected>(by.event.body).instead)};
  await_things(f, own, then.body);
  Refusal fallen = fold_if_it_fits(f, then);
  if (may_wait(f, own, then.body, fallen)) {
    fold_in(f, then);
    fallen = Refusal::None;
  }
  f.log.set_fallen(*place, fallen);
}

}  // namespace engine
