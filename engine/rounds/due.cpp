#include "engine/rounds/due.h"

#include <fmt/format.h>

#include <algorithm>
#include <set>
#include <span>

namespace engine {
namespace {

constexpr std::chrono::days kEarliest{1};  // before the round was due

std::size_t colonies_in(const Farm& farm, YardId yard) {
  const auto all = farm.in_yard.of(yard);
  return static_cast<std::size_t>(std::count_if(all.begin(), all.end(), [&](ColonyId id) {
    const Colony& colony = farm.colonies.at(id);
    return !colony.lost && !is_dead_out(farm, colony);
  }));
}

// A walk opened for the course counts with the first colony treated. Any other one counts when it
// treated at least half of the yard: a visit to a few come-back colonies is no round.
bool counts_as_round(const Farm& farm, const Walk& w, const Course& course) {
  const auto treated = std::count_if(w.stops.begin(), w.stops.end(),
                                     [](const Stop& s) { return !s.treatments.empty(); });
  if (treated == 0 || (w.course && *w.course != course.id)) return false;
  return w.course || 2 * static_cast<std::size_t>(treated) >= colonies_in(farm, w.yard);
}

// Those of the yard's walks that a local day may have seen the opening of, or a later day.
std::span<const Walks::Opened> walks_from(const Farm& farm, YardId yard,
                                          std::chrono::sys_days day) {
  const auto walks = farm.walks.of_yard(yard);
  const Utc least = day - std::chrono::days{1};  // somewhere it is that day already
  return walks.subspan(static_cast<std::size_t>(
      std::partition_point(walks.begin(), walks.end(),
                           [&](const Walks::Opened& o) { return o.at < least; }) -
      walks.begin()));
}

void add_rounds(const Farm& farm, const Course& course, Date on, Due& due) {
  const std::vector<RoundState> rounds = rounds_of(farm, course);
  for (std::size_t i = 0; i < rounds.size(); ++i) {
    if (rounds[i].walked) continue;
    const DueRound round{course.yard,
                         course.id,
                         static_cast<int>(i + 1),
                         static_cast<int>(rounds.size()),
                         rounds[i].planned,
                         days_apart(rounds[i].planned, on)};
    (round.days_over >= 0 ? due.rounds : due.coming).push_back(round);
    return;  // the rounds after the first unwalked one wait for it
  }
}

// The day of the last count in the yard up to that day.
std::optional<Date> last_count(const Farm& farm, YardId yard, Date on) {
  std::optional<Date> last;
  for (const ColonyId colony : farm.in_yard.of(yard))
    farm.counts.each_of(colony, [&](const Count& count) {
      if (count.taken.on <= on && whole_count(count.taken) && (!last || count.taken.on > *last))
        last = count.taken.on;
    });
  return last;
}

std::vector<DueCount> counts_due(const Farm& farm, Date on) {
  std::vector<DueCount> due;
  for (const Yard* yard : yards(farm)) {
    if (colonies_in(farm, yard->id) == 0) continue;
    const auto last = last_count(farm, yard->id, on);
    const int since = last ? days_apart(*last, on) : 0;
    if (!last || since >= kDaysBetweenCounts) due.push_back({yard->id, last, since});
  }
  std::stable_sort(due.begin(), due.end(), [](const DueCount& a, const DueCount& b) {
    if (a.last.has_value() != b.last.has_value()) return !a.last.has_value();
    return a.days_since > b.days_since;
  });
  return due;
}

std::vector<DuePostCount> post_counts(const Farm& farm, Date on) {
  std::vector<DuePostCount> due;
  for (const auto& [id, course] : farm.courses) {
    if (farm.yards.at(course.yard).lost || colonies_in(farm, course.yard) == 0) continue;
    const auto last = course_done_on(farm, course);
    if (!last || *last > on || days_apart(*last, on) > kDaysPostAsked) continue;
    if (last_count(farm, course.yard, on) >= date_after(*last, kDaysToPostLeast)) continue;
    const Date planned = date_after(*last, kDaysToPostCount);
    due.push_back({course.yard, id, *last, planned, days_apart(planned, on)});
  }
  std::stable_sort(due.begin(), due.end(),
                   [](const auto& a, const auto& b) { return a.planned < b.planned; });
  return due;
}

using ColonySet = std::set<ColonyId>;

bool found_dead(const Stop& stop) {
  return stop.phase == Phase::PassedOver && stop.passed == PassReason::DeadOut;
}

ColonySet met_in(const Walk& walk) {
  ColonySet met;
  for (const Stop& s : walk.stops)
    if (!found_dead(s)) met.insert(s.colony);
  return met;
}

// Those that stand in the yard now and can be treated.
bool stands_there(const Farm& farm, YardId yard, ColonyId id) {
  const Colony& colony = farm.colonies.at(id);
  return colony.yard == yard && !colony.lost && !is_dead_out(farm, colony);
}

bool treated_between(const Farm& farm, ColonyId id, Date from, std::optional<Date> to) {
  const auto given = farm.vaporized.of(id);
  return std::any_of(given.begin(), given.end(),
                     [&](const Vaporized& v) { return v.on >= from && (!to || v.on < *to); });
}

std::optional<Date> walked_on(const Farm& farm, const RoundState& round) {
  if (!round.walked) return std::nullopt;
  return local_date(farm.walks.at(*round.walked).opened);
}

// How much of each walked round was done. Rounds are walked in their order, so those not walked
// come last.
void count_treated(const Farm& farm, YardId yard, std::vector<RoundState>& rounds) {
  ColonySet so_far;
  for (std::size_t i = 0; i < rounds.size() && rounds[i].walked; ++i) {
    const bool latest = i + 1 == rounds.size() || !rounds[i + 1].walked;
    const Walk& walk = farm.walks.at(*rounds[i].walked);
    ColonySet all = met_in(walk);
    for (const ColonyId id : so_far)
      if (stands_there(farm, yard, id)) all.insert(id);
    if (latest)
      for (const ColonyId id : farm.in_yard.of(yard))
        if (stands_there(farm, yard, id)) all.insert(id);
    so_far.insert(all.begin(), all.end());
    const Date from = local_date(walk.opened);
    const auto to = latest ? std::nullopt : walked_on(farm, rounds[i + 1]);
    rounds[i].of = all.size();
    for (const ColonyId id : all) {
      const Stop* stop = find_stop(walk, id);
      const bool there = stop != nullptr && !stop->treatments.empty();
      if (there || treated_between(farm, id, from, to)) ++rounds[i].treated;
    }
  }
}

void add_samples(const Farm& farm, Date on, Due& due) {
  for (const Yard* yard : yards(farm))
    for (const Colony* colony : colonies_of(farm, yard->id)) {
      const auto missing = samples_missing(farm, colony->id, on);
      due.samples.insert(due.samples.end(), missing.begin(), missing.end());
      if (is_dead_out(farm, *colony)) due.dead_outs.push_back(colony->id);
    }
}

}  // namespace

std::string walked_words(const RoundState& round) {
  if (!round.walked) return "not walked";
  if (round.whole()) return "walked";
  return fmt::format("{} of {} treated", round.treated, round.of);
}

bool whole_count(const CountTaken& count) {
  switch (count.method) {
    case CountMethod::AlcoholWash:
    case CountMethod::SugarRoll:
      return count.bees.has_value();
    case CountMethod::StickyBoard:
      return count.hours.has_value();
    case CountMethod::Other:
      return true;
  }
  return true;
}

std::vector<DueSample> samples_missing(const Farm& farm, ColonyId colony, Date on) {
  std::optional<Date> whole;
  std::vector<DueSample> missing;
  const YardId yard = farm.colonies.at(colony).yard;
  farm.counts.each_of(colony, [&](const Count& c) {
    if (c.taken.on > on) return;
    if (!whole_count(c.taken))
      missing.push_back({c.entry, yard, colony, c.taken});
    else if (c.taken.bees && (!whole || c.taken.on > *whole))
      whole = c.taken.on;
  });
  std::erase_if(missing, [&](const DueSample& s) { return whole && s.taken.on < *whole; });
  std::stable_sort(missing.begin(), missing.end(),
                   [](const DueSample& a, const DueSample& b) { return a.taken.on < b.taken.on; });
  return missing;
}

std::optional<Date> course_done_on(const Farm& farm, const Course& course) {
  std::optional<Date> last;
  for (const RoundState& r : rounds_of(farm, course)) {
    if (!r.walked && !course.ended) return std::nullopt;
    if (r.walked) last = local_date(farm.walks.at(*r.walked).opened);
  }
  return last;
}

std::vector<RoundState> rounds_of(const Farm& farm, const Course& course) {
  std::vector<RoundState> rounds;
  if (course.rounds.empty()) return rounds;
  const auto walks = walks_from(farm, course.yard, days(course.rounds.front()) - kEarliest);
  auto next = walks.begin();
  for (const Date planned : course.rounds) {
    const auto is_it = [&](const Walks::Opened& o) {
      const Walk& walk = farm.walks.at(o.walk);
      return days(local_date(walk.opened)) >= days(planned) - kEarliest &&
             counts_as_round(farm, walk, course);
    };
    next = std::find_if(next, walks.end(), is_it);
    rounds.push_back({planned, {}});
    if (next != walks.end()) rounds.back().walked = (next++)->walk;
  }
  count_treated(farm, course.yard, rounds);
  return rounds;
}

Due due_on(const Farm& farm, Date on) {
  Due due;
  for (const auto& [id, course] : farm.courses)
    if (!course.ended && !farm.yards.at(course.yard).lost) add_rounds(farm, course, on, due);
  const auto longest_over = [](const DueRound& a, const DueRound& b) {
    return a.days_over > b.days_over;
  };
  std::stable_sort(due.rounds.begin(), due.rounds.end(), longest_over);
  std::stable_sort(due.coming.begin(), due.coming.end(), longest_over);
  due.come_backs = come_back_list(farm);
  due.counts = counts_due(farm, on);
  due.post_counts = post_counts(farm, on);
  add_samples(farm, on, due);
  return due;
}

}  // namespace engine
