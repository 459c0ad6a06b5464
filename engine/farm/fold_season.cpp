// Counts, courses and evenings, brood, other treatments.
#include <algorithm>
#include <cassert>

#include "engine/farm/fold.h"
#include "engine/farm/fold_kinds.h"

namespace engine {

void fold(Farm& f, const Event& at, const CountTaken& e) {
  assert(!e.count || f.counts.find(e.colony, *e.count) == nullptr);
  f.counts.push_back({at.ref, e});
}

void fold(Farm& f, const Event&, const CoursePlanned& e) {
  assert(!f.courses.contains(e.course));
  f.courses[e.course] = {e.course, e.yard, e.rounds, false, {}, e.asked};
}

void fold(Farm& f, const Event&, const CourseChanged& e) {
  f.courses.at(e.course).rounds = e.rounds;
}

void fold(Farm& f, const Event&, const CourseEnded& e) {
  f.courses.at(e.course).ended = true;
  f.courses.at(e.course).end_reason = e.reason;
}

namespace {

// On record those of a list that cannot be placed any more are left out.
void place(Farm& f, const std::vector<CourseDates>& courses) {
  for (const CourseDates& c : courses) {
    if (why_not_placed(f, c) != Refusal::None) continue;
    if (c.yard) {
      f.courses[c.course] = {c.course, *c.yard, c.rounds, false, {}, c.asked};
      continue;
    }
    Course& course = f.courses.at(c.course);
    course.rounds = c.rounds;
    if (c.asked) course.asked = c.asked;
  }
}

}  // namespace

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

void fold(Farm& f, const Event&, const BoardPutIn& e) {
  std::optional<Date>& last = f.colonies.at(e.colony).board_in;
  last = std::max(last.value_or(e.on), e.on);
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

void fold(Farm& f, const Event&, const ComeBackSettled& e) {
  f.colonies.at(e.colony).last_walk.reset();
}

void fold(Farm& f, const Event& at, const OtherTreatmentGiven& e) {
  f.otherwise_treated.change(e.colony).push_back({at.ref, e.on});
}

}  // namespace engine
