#include "engine/course/due.h"

#include <algorithm>
#include <map>

namespace engine {
namespace {

// Each yard's walks, oldest first, and how many colonies it has: asked once for many courses.
struct Yards {
  std::map<YardId, std::vector<const Walk*>> walks;
  std::map<YardId, std::size_t> colonies;
  std::map<YardId, Date> last_counts;  // up to the day asked about
};

Yards yards_with_walks(const Farm& farm) {
  Yards all;
  for (const auto& [id, walk] : farm.walks) all.walks[walk.yard].push_back(&walk);
  for (auto& [yard, walks] : all.walks)
    std::stable_sort(walks.begin(), walks.end(),
                     [](const Walk* a, const Walk* b) { return a->opened.at < b->opened.at; });
  for (const auto& [id, colony] : farm.colonies)
    if (!colony.lost) ++all.colonies[colony.yard];
  return all;
}

std::size_t colonies_in(const Yards& all, YardId yard) {
  const auto at = all.colonies.find(yard);
  return at == all.colonies.end() ? 0 : at->second;
}

// A walk opened for the course counts with the first colony treated. Any other one counts when it
// treated at least half of the yard: a visit to a few come-back colonies is no round.
bool counts_as_round(const Yards& all, const Walk& w, const Course& course) {
  const auto treated = std::count_if(w.stops.begin(), w.stops.end(),
                                     [](const Stop& s) { return !s.treatments.empty(); });
  if (treated == 0 || (w.course && *w.course != course.id)) return false;
  return w.course || 2 * static_cast<std::size_t>(treated) >= colonies_in(all, w.yard);
}

std::vector<RoundState> rounds_of(const Yards& all, const Course& course) {
  static const std::vector<const Walk*> kNone;
  const auto at = all.walks.find(course.yard);
  const auto& walks = at == all.walks.end() ? kNone : at->second;
  std::vector<RoundState> rounds;
  auto walk = walks.begin();
  for (const Date planned : course.rounds) {
    const std::chrono::sys_days earliest = days(planned) - std::chrono::days{1};
    while (walk != walks.end() &&
           (days(local_date((*walk)->opened)) < earliest || !counts_as_round(all, **walk, course)))
      ++walk;
    rounds.push_back({planned, {}});
    if (walk != walks.end()) rounds.back().walked = (*walk++)->id;
  }
  return rounds;
}

std::optional<Date> done_on(const Farm& farm, const Yards& all, const Course& course) {
  std::optional<Date> last;
  for (const RoundState& r : rounds_of(all, course)) {
    if (!r.walked && !course.ended) return std::nullopt;
    if (r.walked) last = local_date(farm.walks.at(*r.walked).opened);
  }
  return last;
}

void add_rounds(const Yards& all, const Course& course, Date on, Due& due) {
  const std::vector<RoundState> rounds = rounds_of(all, course);
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

std::vector<DueCount> counts_due(const Farm& farm, const Yards& all, Date on) {
  std::vector<DueCount> due;
  for (const Yard* yard : yards(farm)) {
    if (colonies_in(all, yard->id) == 0) continue;
    const auto at = all.last_counts.find(yard->id);
    if (at == all.last_counts.end()) {
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

bool counted_since(const Yards& all, YardId yard, Date from) {
  const auto at = all.last_counts.find(yard);
  return at != all.last_counts.end() && at->second >= from;
}

std::vector<DuePostCount> post_counts(const Farm& farm, const Yards& all, Date on) {
  std::vector<DuePostCount> due;
  for (const auto& [id, course] : farm.courses) {
    if (farm.yards.at(course.yard).lost || colonies_in(all, course.yard) == 0) continue;
    const auto last = done_on(farm, all, course);
    if (!last || *last > on || days_apart(*last, on) > kDaysPostAsked) continue;
    if (counted_since(all, course.yard, date_after(*last, kDaysToPostLeast))) continue;
    const Date planned = date_after(*last, kDaysToPostCount);
    due.push_back({course.yard, id, *last, planned, days_apart(planned, on)});
  }
  std::stable_sort(due.begin(), due.end(),
                   [](const auto& a, const auto& b) { return a.planned < b.planned; });
  return due;
}

Yards of_one_yard(const Farm& farm, YardId yard) {
  Yards one;
  one.walks[yard] = walks_of(farm, yard);
  one.colonies[yard] = colonies_of(farm, yard).size();
  return one;
}

}  // namespace

std::optional<Date> course_done_on(const Farm& farm, const Course& course) {
  return done_on(farm, of_one_yard(farm, course.yard), course);
}

std::vector<RoundState> rounds_of(const Farm& farm, const Course& course) {
  return rounds_of(of_one_yard(farm, course.yard), course);
}

Due due_on(const Farm& farm, Date on) {
  Due due;
  Yards all = yards_with_walks(farm);
  all.last_counts = last_counts(farm, on);
  for (const auto& [id, course] : farm.courses)
    if (!course.ended && !farm.yards.at(course.yard).lost) add_rounds(all, course, on, due);
  const auto longest_over = [](const DueRound& a, const DueRound& b) {
    return a.days_over > b.days_over;
  };
  std::stable_sort(due.rounds.begin(), due.rounds.end(), longest_over);
  std::stable_sort(due.coming.begin(), due.coming.end(), longest_over);
  due.come_backs = come_back_list(farm);
  due.counts = counts_due(farm, all, on);
  due.post_counts = post_counts(farm, all, on);
  return due;
}

}  // namespace engine
