// What speaks against counts, courses and evenings, brood, other treatments.
#include <set>

#include "engine/farm/fold.h"
#include "engine/farm/why_not_kinds.h"

namespace engine {

Refusal why_not(const Farm& f, const CountTaken& e) {
  if (!e.on.ok() || e.mites < 0 || e.mites > 100'000) return Refusal::OutOfRange;
  if (e.bees && (*e.bees < 1 || *e.bees > 10'000)) return Refusal::OutOfRange;
  if (e.hours && (*e.hours < 1 || *e.hours > 24 * 31)) return Refusal::OutOfRange;
  if (e.second_shake && (*e.second_shake < 0 || *e.second_shake > e.mites))
    return Refusal::OutOfRange;
  if (e.count && f.counts.find(e.colony, *e.count)) return Refusal::AlreadyThere;
  return colony_known(f, e.colony);
}

namespace {

bool rising(const std::vector<Date>& rounds) {
  for (std::size_t i = 0; i < rounds.size(); ++i)
    if (!rounds[i].ok() || (i > 0 && rounds[i] <= rounds[i - 1])) return false;
  return !rounds.empty();
}

bool fits(const std::optional<RoundsAsked>& asked) {
  if (!asked) return true;
  const bool gaps =
      asked->gap_least >= 1 && asked->gap_least <= asked->gap_most && asked->gap_most <= kGapEver;
  const bool urgency =
      !asked->urgency_percent || (*asked->urgency_percent >= 10 && *asked->urgency_percent <= 1000);
  return gaps && urgency && (!asked->latest || asked->latest->ok());
}

}  // namespace

Refusal why_not(const Farm& f, const CoursePlanned& e) {
  if (e.course.empty() || find(f.courses, e.course)) return Refusal::AlreadyThere;
  if (const Refusal r = yard_known(f, e.yard); r != Refusal::None) return r;
  return rising(e.rounds) && fits(e.asked) ? yard_lost(f, e.yard) : Refusal::OutOfRange;
}

Refusal why_not(const Farm& f, const CourseChanged& e) {
  if (find(f.courses, e.course) == nullptr) return Refusal::NoSuchCourse;
  return rising(e.rounds) ? Refusal::None : Refusal::OutOfRange;
}

Refusal why_not(const Farm& f, const CourseEnded& e) {
  return find(f.courses, e.course) ? Refusal::None : Refusal::NoSuchCourse;
}

namespace {

// A course may stand in the list once.
Refusal courses_as_such(const std::vector<CourseDates>& courses) {
  std::set<CourseId> seen;
  for (const CourseDates& c : courses)
    if (!rising(c.rounds) || !fits(c.asked)) return Refusal::OutOfRange;
  for (const CourseDates& c : courses)
    if (!seen.insert(c.course).second) return Refusal::AlreadyThere;
  return Refusal::None;
}

// Each is known or new as it says. A record places those that are (farm/fold_season.cpp).
Refusal courses_to_place(const Farm& f, const std::vector<CourseDates>& courses) {
  for (const CourseDates& c : courses)
    if (const Refusal r = why_not_placed(f, c); r != Refusal::None) return r;
  for (const CourseDates& c : courses)
    if (c.yard)
      if (const Refusal r = yard_lost(f, *c.yard); r != Refusal::None) return r;
  return Refusal::None;
}

}  // namespace

Refusal why_not(const Farm& f, const CoursesPlanned& e) {
  if (e.courses.empty()) return Refusal::NoSuchCourse;
  if (const Refusal r = courses_as_such(e.courses); r != Refusal::None) return r;
  return courses_to_place(f, e.courses);
}

Refusal why_not(const Farm&, const FreeEveningsSet& e) {
  const std::set<Weekday> once(e.weekdays.begin(), e.weekdays.end());
  return once.size() == e.weekdays.size() ? Refusal::None : Refusal::AlreadyThere;
}

Refusal why_not(const Farm&, const EveningChanged& e) {
  return e.on.ok() ? Refusal::None : Refusal::OutOfRange;
}

Refusal why_not(const Farm& f, const EveningLost& e) {
  if (!e.on.ok()) return Refusal::OutOfRange;
  if (const Refusal r = courses_as_such(e.moved); r != Refusal::None) return r;
  return courses_to_place(f, e.moved);
}

Refusal why_not(const Farm& f, const DriveTimeSet& e) {
  if (const Refusal r = yard_known(f, e.to); r != Refusal::None) return r;
  if (e.from)
    if (const Refusal r = yard_known(f, *e.from); r != Refusal::None) return r;
  const bool apart = !e.from || *e.from != e.to;
  if (!apart || e.minutes < 1 || e.minutes > 600) return Refusal::OutOfRange;
  if (const Refusal r = yard_lost(f, e.to); r != Refusal::None) return r;
  return e.from ? yard_lost(f, *e.from) : Refusal::None;
}

Refusal why_not(const Farm&, const AirExpected& e) {
  const bool fits = !e.air || (e.air->tenths_c >= -400 && e.air->tenths_c <= 600);
  return e.on.ok() && fits ? Refusal::None : Refusal::OutOfRange;
}

Refusal why_not(const Farm& f, const BroodNoted& e) {
  if (!e.on.ok()) return Refusal::OutOfRange;
  if (e.colonies.empty()) return Refusal::NoSuchColony;
  if (!each_once(e.colonies)) return Refusal::AlreadyThere;
  return all_known(f, e.colonies);
}

Refusal why_not(const Farm& f, const BoardPutIn& e) {
  return e.on.ok() ? colony_there(f, e.colony) : Refusal::OutOfRange;
}

Refusal why_not(const Farm& f, const ComeBackSettled& e) { return colony_known(f, e.colony); }

Refusal why_not(const Farm& f, const OtherTreatmentGiven& e) {
  if (!e.on.ok() || e.withdrawal_days < 0 || !minute_in_range(e.minute)) return Refusal::OutOfRange;
  if (e.days_given && (*e.days_given < 1 || *e.days_given > 365)) return Refusal::OutOfRange;
  if (e.brood_boxes && !boxes_in_range(*e.brood_boxes)) return Refusal::OutOfRange;
  if (e.lot_expiry && !e.lot_expiry->ok()) return Refusal::OutOfRange;
  return e.product.empty() ? Refusal::NameMissing : colony_known(f, e.colony);
}

Refusal why_not_placed(const Farm& f, const CourseDates& c) {
  const bool known = find(f.courses, c.course) != nullptr;
  if (!c.yard) return known ? Refusal::None : Refusal::NoSuchCourse;
  return known || c.course.empty() ? Refusal::AlreadyThere : yard_known(f, *c.yard);
}

}  // namespace engine
