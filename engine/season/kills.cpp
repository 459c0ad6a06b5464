#include "engine/season/kills.h"

#include <algorithm>

#include "engine/season/course_pairs.h"

namespace engine {
namespace {

double part(const std::vector<double>& sorted, double share) {
  const double at = share * static_cast<double>(sorted.size() - 1);
  const auto low = static_cast<std::size_t>(at);
  const std::size_t high = std::min(low + 1, sorted.size() - 1);
  return sorted[low] + (sorted[high] - sorted[low]) * (at - static_cast<double>(low));
}

void put(std::vector<double>& rising, double kill) {
  rising.insert(std::upper_bound(rising.begin(), rising.end(), kill), kill);
}

KillsLearned together(const std::vector<double>& kills) {
  return {part(kills, 0.5), part(kills, 0.25), part(kills, 0.75), kills.size()};
}

std::optional<KitId> main_vaporizer(const Farm& farm, ColonyId colony, Date from, Date to) {
  std::map<KitId, int> times;
  for (const Vaporized& v : farm.vaporized.of(colony))
    if (v.on >= from && v.on <= to && !v.vaporizer.empty()) ++times[v.vaporizer];
  const auto most = std::max_element(
      times.begin(), times.end(), [](const auto& a, const auto& b) { return a.second < b.second; });
  return most == times.end() ? std::nullopt : std::optional(most->first);
}

}  // namespace

KillSurvey::KillSurvey(const Farm& farm, Date today) : today_(today) {
  for (const auto& [id, course] : farm.courses) courses_.push_back(id);
  std::stable_sort(courses_.begin(), courses_.end(), [&](const CourseId& a, const CourseId& b) {
    return farm.courses.at(a).rounds.front() < farm.courses.at(b).rounds.front();
  });
}

void KillSurvey::go_on(const Farm& farm, std::size_t steps) {
  for (; steps > 0 && !whole(); --steps)
    colonies_.empty() ? look_into_course(farm) : look_into_colony(farm);
}

void KillSurvey::look_into_course(const Farm& farm) {
  const Course& course = farm.courses.at(courses_.back());
  courses_.pop_back();
  const std::vector<Date> rounds = rounds_walked(farm, course);
  if (rounds.empty()) return;
  for (CoursePair& p : treated_pairs(farm, course.yard, rounds, today_))
    colonies_.push_back({course.yard, rounds, p.colony, std::move(p.before), std::move(p.after)});
}

void KillSurvey::look_into_colony(const Farm& farm) {
  const Waiting w = std::move(colonies_.back());
  colonies_.pop_back();
  const auto learned = learned_kill(farm, w.yard, w.rounds, {{w.colony, w.before, w.after}});
  if (!learned) return;
  put(yards_[w.yard], learned->kill);
  if (const auto by = main_vaporizer(farm, w.colony, w.rounds.front(), w.rounds.back()))
    put(vaporizers_[*by], learned->kill);
}

std::optional<KillsLearned> KillSurvey::of_yard(YardId yard) const {
  const auto at = yards_.find(yard);
  return at == yards_.end() ? std::nullopt : std::optional(together(at->second));
}

std::map<KitId, KillsLearned> KillSurvey::by_vaporizer() const {
  std::map<KitId, KillsLearned> all;
  for (const auto& [vaporizer, kills] : vaporizers_) all[vaporizer] = together(kills);
  return all;
}

}  // namespace engine
