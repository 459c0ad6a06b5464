#include "engine/calendar/propose.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>
#include <set>

#include "engine/farm/queries.h"
#include "engine/method/obey.h"
#include "engine/rounds/due.h"
#include "engine/words/words.h"

namespace engine {
namespace {

using Taken = std::map<Date, std::vector<YardId>>;

// The label chosen in Setup decides; where it is not known, the rules of vapor that were given.
int gap_of(const Farm& farm, const Surrounding& around) {
  if (around.insist) return 1;
  if (farm.setup.rules && farm.setup.rules->limits) return label_gap(farm);
  if (!around.vapor || !around.vapor->min_interval_days) return 1;
  return std::max(1, *around.vapor->min_interval_days);
}

std::vector<const Course*> open_courses(const Farm& farm) {
  std::vector<const Course*> list;
  for (const auto& [id, course] : farm.courses)
    if (!course.ended && !farm.yards.at(course.yard).lost) list.push_back(&course);
  return list;
}

std::optional<Date> last_treated(const Farm& farm, YardId yard) {
  std::optional<Date> last;
  for (const Walk* w : walks_of(farm, yard))
    for (const Stop& s : w->stops)
      for (const Treatment& t : s.treatments)
        last = std::max(last.value_or(local_date(t.set_at)), local_date(t.set_at));
  return last;
}

void take(Taken& taken, Date on, YardId yard) {
  auto& held = taken[on];
  const auto at = std::lower_bound(held.begin(), held.end(), yard);
  if (at == held.end() || *at != yard) held.insert(at, yard);
}

// Evenings of courses that stay as they are, from today on.
Taken taken_by_others(const Farm& farm, const std::set<CourseId>& moving, Date today) {
  Taken taken;
  for (const Course* c : open_courses(farm)) {
    if (moving.contains(c->id)) continue;
    for (const RoundState& r : rounds_of(farm, *c))
      if (!r.walked && r.planned >= today) take(taken, r.planned, c->yard);
  }
  return taken;
}

CalendarAsk ask_of(const Farm& farm, const Surrounding& around, const std::set<CourseId>& moving) {
  CalendarAsk ask;
  ask.taken = taken_by_others(farm, moving, around.today);
  const Date today = around.today;
  ask.free = [&farm, today](Date d) { return d >= today && evening_free(farm.evenings, d); };
  ask.holds = around.holds ? around.holds : holds_by_minutes(farm);
  return ask;
}

constexpr double kUrgencyLeast = 0.1, kUrgencyMost = 10;

RoundsAsked as_asked(const CourseWish& w) {
  const double urgency = std::clamp(w.urgency, kUrgencyLeast, kUrgencyMost);
  RoundsAsked asked{w.latest, std::clamp(w.gap_least, 1, kGapEver), 0, {}};
  asked.gap_most = std::clamp(w.gap_most, asked.gap_least, kGapEver);
  if (urgency != 1) asked.urgency_percent = static_cast<int>(std::lround(urgency * 100));
  return asked;
}

// The label may ask for longer gaps than the keeper did, then and now.
void ask_within(RoundsAsk& y, const RoundsAsked& asked) {
  y.latest = asked.latest;
  y.gap_least = std::max(asked.gap_least, y.label_gap);
  y.gap_most = std::max(asked.gap_most, y.gap_least);
  y.urgency = asked.urgency_percent.value_or(100) / 100.0;
}

RoundsAsk again(const Farm& farm, const Course& course, const Surrounding& around) {
  RoundsAsk y;
  y.yard = course.yard;
  y.course = course.id;
  y.is_new = false;
  y.rounds = 0;
  y.earliest = around.today;
  y.label_gap = gap_of(farm, around);
  y.last_on = last_treated(farm, course.yard);
  if (course.asked) ask_within(y, *course.asked);
  bool first = true;
  for (const RoundState& r : rounds_of(farm, course)) {
    if (r.walked) {
      y.walked.push_back(r.planned);
      continue;
    }
    // A course that has not begun keeps its beginning.
    if (first && y.walked.empty()) y.earliest = std::max(around.today, r.planned);
    first = false;
    ++y.rounds;
  }
  return y;
}

std::string dates_words(const std::vector<Date>& dates) {
  std::string out;
  for (const Date d : dates) out += (out.empty() ? "" : ", ") + iso_date(d);
  return out;
}

Proposal proposal_of(const Farm& farm, const Calendar& calendar) {
  Proposal p;
  p.evenings = calendar.evenings;
  std::vector<std::string> kept;
  for (const PlacedRounds& placed : calendar.yards) {
    const std::string& name = farm.yards.at(placed.yard).name;
    p.lines.push_back(fmt::format("{}: {}", name, dates_words(placed.dates.rounds)));
    for (const std::string& why : placed.why) kept.push_back(fmt::format("{}: {}", name, why));
    const auto at = farm.courses.find(placed.dates.course);
    if (at == farm.courses.end() || at->second.rounds != placed.dates.rounds)
      p.courses.push_back(placed.dates);
  }
  p.lines.insert(p.lines.end(), kept.begin(), kept.end());
  p.lines.insert(p.lines.end(), calendar.no_room.begin(), calendar.no_room.end());
  return p;
}

Calendar move(const Farm& farm, const std::set<CourseId>& moving, const Surrounding& around) {
  CalendarAsk ask = ask_of(farm, around, moving);
  for (const Course* c : open_courses(farm))
    if (moving.contains(c->id)) ask.yards.push_back(again(farm, *c, around));
  return plan_calendar(farm, ask);
}

std::size_t troubles(const Calendar& c) {
  std::size_t n = c.no_room.size();
  for (const PlacedRounds& p : c.yards) n += p.why.size();
  return n;
}

// Those that must move alone; all open courses when that keeps more of what was asked.
Proposal move_as_few(const Farm& farm, const std::set<CourseId>& must, const Surrounding& around) {
  if (must.empty()) return {};
  const Calendar few = move(farm, must, around);
  if (troubles(few) == 0) return proposal_of(farm, few);
  std::set<CourseId> all;
  for (const Course* c : open_courses(farm)) all.insert(c->id);
  const Calendar every = move(farm, all, around);
  return proposal_of(farm, troubles(every) < troubles(few) ? every : few);
}

YardId yard_of(const Farm& farm, const CourseDates& c) {
  return c.yard ? *c.yard : farm.courses.at(c.course).yard;
}

// Cuts the rounds to what the label leaves; false, and says why, where that is none.
bool bound_by_label(const Farm& farm, const Surrounding& around, RoundsAsk& y,
                    std::vector<std::string>& told) {
  const std::string& name = farm.yards.at(y.yard).name;
  if (around.vapor && around.vapor->most_rounds && *around.vapor->most_rounds > 0)
    y.rounds = std::min(y.rounds, *around.vapor->most_rounds);
  if (const auto left = rounds_left(farm, y.yard, y.earliest); left && *left < y.rounds) {
    told.push_back(
        *left == 0
            ? fmt::format("{}: no round: the label's treatments of {} are given.", name,
                          static_cast<int>(y.earliest.year()))
            : fmt::format("{}: {} where {} were asked for: the label allows no more.", name,
                          counted(static_cast<std::size_t>(*left), "round", "rounds"), y.rounds));
    y.rounds = *left;
  }
  if (y.rounds == 0) return false;
  auto brood = course_against_label(farm, y.yard, {y.earliest});
  if (std::string asked = brood_question(farm, y.yard, y.earliest); !asked.empty())
    brood.push_back(std::move(asked));
  for (const std::string& line : brood) told.push_back(fmt::format("{}: {}", name, line));
  return brood.empty();
}

}  // namespace

Proposal propose_courses(const Farm& farm, const std::vector<CourseWish>& wishes,
                         const Surrounding& around) {
  CalendarAsk ask = ask_of(farm, around, {});
  std::vector<std::string> told;
  std::map<CourseId, RoundsAsked> asked;
  for (const CourseWish& w : wishes) {
    RoundsAsk y;
    y.yard = w.yard;
    y.course = w.course;
    y.rounds = std::max(1, w.rounds);
    y.earliest = std::max(around.today, w.earliest);
    if (!around.insist && !bound_by_label(farm, around, y, told)) continue;
    y.label_gap = gap_of(farm, around);
    y.last_on = last_treated(farm, w.yard);
    ask_within(y, as_asked(w));
    asked[w.course] = as_asked(w);
    ask.yards.push_back(std::move(y));
  }
  Proposal p = proposal_of(farm, plan_calendar(farm, ask));
  p.refused = std::move(told);
  for (CourseDates& c : p.courses) {
    c.asked = asked.at(c.course);
    const YardId yard = yard_of(farm, c);
    const std::string& name = farm.yards.at(yard).name;
    for (const std::string& line : course_against_label(farm, yard, c.rounds))
      p.against.push_back(fmt::format("{}: {}", name, line));
    if (c.rounds.empty()) continue;
    if (const std::string question = brood_question(farm, yard, c.rounds.front());
        !question.empty())
      p.unanswered.push_back(fmt::format("{}: {}", name, question));
  }
  p.lines.insert(p.lines.end(), p.refused.begin(), p.refused.end());
  return p;
}

Proposal propose_after_loss(const Farm& farm, Date lost, const Surrounding& around) {
  std::set<CourseId> must;
  for (const Course* c : open_courses(farm))
    for (const RoundState& r : rounds_of(farm, *c))
      if (!r.walked && r.planned == lost) must.insert(c->id);
  Surrounding after = around;
  if (lost >= around.today) after.today = date_after(around.today, lost == around.today ? 1 : 0);
  const EveningHolds holds = around.holds ? around.holds : holds_by_minutes(farm);
  after.holds = [holds, lost](Date on, std::span<const YardId> yards) {
    return on != lost && holds(on, yards);
  };
  return move_as_few(farm, must, after);
}

Proposal propose_for_missed(const Farm& farm, const Surrounding& around) {
  std::set<CourseId> must;
  for (const Course* c : open_courses(farm))
    for (const RoundState& r : rounds_of(farm, *c))
      if (!r.walked && r.planned < around.today) must.insert(c->id);
  return move_as_few(farm, must, around);
}

namespace {

// The walk ended early and did not come to the colony: it waits for no round.
bool was_cut_off(const Farm& farm, const ComeBack& c) {
  const auto not_reached = [](const ComeBackReason& r) { return r.why == ComeBackWhy::NotReached; };
  return farm.walks.at(c.walk).closed_why &&
         std::any_of(c.reasons.begin(), c.reasons.end(), not_reached);
}

// What ended a walk early ended that evening.
Date earliest_for(const Farm& farm, const ComeBack& c, Date today) {
  if (!was_cut_off(farm, c)) return today;
  return std::max(today, date_after(local_date(*farm.walks.at(c.walk).closed), 1));
}

// The first free evening from that day on with room for the yard too.
Date evening_for(const Farm& farm, const Taken& taken, const EveningHolds& holds, YardId yard,
                 Date on) {
  constexpr int kLookAhead = 60;  // days
  const auto room = [&](Date d) {
    std::vector<YardId> yards = taken.contains(d) ? taken.at(d) : std::vector<YardId>{};
    yards.insert(std::upper_bound(yards.begin(), yards.end(), yard), yard);
    return evening_free(farm.evenings, d) && holds(d, yards);
  };
  for (int i = 0; i < kLookAhead && !room(on); ++i) on = date_after(on, 1);
  return on;
}

std::vector<Visit> visits_for_rounds(const Due& due, Date today, Taken& taken) {
  std::vector<Visit> list;
  for (const auto* rounds : {&due.rounds, &due.coming})
    for (const DueRound& r : *rounds) {
      const Date on = std::max(r.planned, today);
      list.push_back({on, r.yard, r.course, {}});
      take(taken, on, r.yard);
    }
  return list;
}

}  // namespace

std::vector<Visit> visits(const Farm& farm, const Surrounding& around) {
  const Due due = due_on(farm, around.today);
  Taken taken;
  std::vector<Visit> list = visits_for_rounds(due, around.today, taken);
  const EveningHolds holds = around.holds ? around.holds : holds_by_minutes(farm);
  for (const ComeBack& c : due.come_backs) {
    const Date from = earliest_for(farm, c, around.today);
    const Date last = was_cut_off(farm, c) ? evening_for(farm, taken, holds, c.yard, from)
                                           : date_after(around.today, kComeBackWaits);
    auto at = std::find_if(list.begin(), list.end(), [&](const Visit& v) {
      return v.yard == c.yard && v.on >= from && v.on <= last;
    });
    if (at == list.end()) {
      const Date on = evening_for(farm, taken, holds, c.yard, from);
      take(taken, on, c.yard);
      at = list.insert(list.end(), {on, c.yard, {}, {}});
    }
    at->come_backs.push_back(c.colony);
  }
  std::stable_sort(list.begin(), list.end(),
                   [](const Visit& a, const Visit& b) { return a.on < b.on; });
  return list;
}

}  // namespace engine
