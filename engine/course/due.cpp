#include "engine/course/due.h"

#include <algorithm>
#include <map>

namespace engine {
namespace {

// A walk opened for the course counts with the first colony treated. Any other one counts when it
// treated at least half of the yard: a visit to a few come-back colonies is no round.
bool counts_as_round(const Farm& farm, const Walk& w, const Course& course) {
  const auto treated = std::count_if(w.stops.begin(), w.stops.end(),
                                     [](const Stop& s) { return !s.treatments.empty(); });
  if (treated == 0 || (w.course && *w.course != course.id)) return false;
  return w.course || 2 * static_cast<std::size_t>(treated) >= colonies_of(farm, w.yard).size();
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

std::map<YardId, Date> last_counts(const Farm& farm, Date on) {
  std::map<YardId, Date> last;
  for (const Count& count : farm.counts) {
    if (count.taken.on > on) continue;
    Date& date =
        last.try_emplace(farm.colonies.at(count.taken.colony).yard, count.taken.on).first->second;
    date = std::max(date, count.taken.on);
  }
  return last;
}

std::vector<DueCount> counts_due(const Farm& farm, Date on) {
  std::vector<DueCount> due;
  const std::map<YardId, Date> last = last_counts(farm, on);
  for (const Yard* yard : yards(farm)) {
    if (colonies_of(farm, yard->id).empty()) continue;
    const auto at = last.find(yard->id);
    if (at == last.end()) {
      due.push_back({yard->id, {}, 0});
    } else if (const int since = days_apart(at->second, on); since >= kDaysBetweenCounts) {
      due.push_back({yard->id, at->second, since});
    }
  }
  std::stable_sort(due.begin(), due.end(), [](const DueCount& a, const DueCount& b) {
    if (a.last.has_value() != b.last.has_value()) return !a.last.has_value();
    return a.days_since > b.days_since;
  });
  return due;
}

bool counted_since(const Farm& farm, YardId yard, Date from, Date on) {
  return std::any_of(farm.counts.begin(), farm.counts.end(), [&](const Count& c) {
    return farm.colonies.at(c.taken.colony).yard == yard && c.taken.on >= from && c.taken.on <= on;
  });
}

std::vector<DuePostCount> post_counts(const Farm& farm, Date on) {
  std::vector<DuePostCount> due;
  for (const auto& [id, course] : farm.courses) {
    if (farm.yards.at(course.yard).lost || colonies_of(farm, course.yard).empty()) continue;
    const auto last = course_done_on(farm, course);
    if (!last || *last > on || days_apart(*last, on) > kDaysPostAsked) continue;
    if (counted_since(farm, course.yard, date_after(*last, kDaysToPostLeast), on)) continue;
    const Date planned = date_after(*last, kDaysToPostCount);
    due.push_back({course.yard, id, *last, planned, days_apart(planned, on)});
  }
  std::stable_sort(due.begin(), due.end(),
                   [](const auto& a, const auto& b) { return a.planned < b.planned; });
  return due;
}

}  // namespace

std::optional<Date> course_done_on(const Farm& farm, const Course& course) {
  std::optional<Date> last;
  for (const RoundState& r : rounds_of(farm, course)) {
    if (!r.walked && !course.ended) return std::nullopt;
    if (r.walked) last = local_date(farm.walks.at(*r.walked).opened);
  }
  return last;
}

std::vector<RoundState> rounds_of(const Farm& farm, const Course& course) {
  std::vector<const Walk*> walks;
  for (const Walk* w : walks_of(farm, course.yard))
    if (counts_as_round(farm, *w, course)) walks.push_back(w);
  std::vector<RoundState> rounds;
  auto walk = walks.begin();
  for (const Date planned : course.rounds) {
    const std::chrono::sys_days earliest = days(planned) - std::chrono::days{1};
    while (walk != walks.end() && days(local_date((*walk)->opened)) < earliest) ++walk;
    rounds.push_back({planned, {}});
    if (walk != walks.end()) rounds.back().walked = (*walk++)->id;
  }
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
  return due;
}

}  // namespace engine
