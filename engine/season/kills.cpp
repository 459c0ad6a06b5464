// What the verdicts of all courses say together: the kill of a yard, of a vaporizer, failing yards.
#include <fmt/format.h>

#include <algorithm>
#include <map>

#include "engine/season/given.h"
#include "engine/season/verdict.h"

namespace engine {
namespace {

double part(const std::vector<double>& sorted, double share) {
  const double at = share * static_cast<double>(sorted.size() - 1);
  const auto low = static_cast<std::size_t>(at);
  const std::size_t high = std::min(low + 1, sorted.size() - 1);
  return sorted[low] + (sorted[high] - sorted[low]) * (at - static_cast<double>(low));
}

void fill(KillOf& k, std::vector<double>& kills) {
  std::sort(kills.begin(), kills.end());
  k.median = part(kills, 0.5);
  k.low = part(kills, 0.25);
  k.high = part(kills, 0.75);
  k.colonies = kills.size();
}

std::optional<KitId> main_vaporizer(const Farm& farm, ColonyId colony, Date from, Date to) {
  std::map<KitId, int> times;
  for (const VaporDay& d : vapor_days(farm, colony))
    if (d.on >= from && d.on <= to) ++times[d.vaporizer];
  const auto most = std::max_element(
      times.begin(), times.end(), [](const auto& a, const auto& b) { return a.second < b.second; });
  return most == times.end() ? std::nullopt : std::optional(most->first);
}

}  // namespace

std::vector<KillOf> kills_by_yard(const std::vector<CourseVerdict>& verdicts) {
  std::map<YardId, std::vector<double>> kills;
  for (const CourseVerdict& v : verdicts)
    for (const ColonyVerdict& c : v.colonies)
      if (c.kill) kills[v.yard].push_back(c.kill->kill);
  std::vector<KillOf> list;
  for (auto& [yard, values] : kills) fill(list.emplace_back(KillOf{yard, {}}), values);
  return list;
}

std::vector<KillOf> kills_by_vaporizer(const Farm& farm,
                                       const std::vector<CourseVerdict>& verdicts) {
  std::map<KitId, std::vector<double>> kills;
  for (const CourseVerdict& v : verdicts)
    for (const ColonyVerdict& c : v.colonies)
      if (const auto by = main_vaporizer(farm, c.colony, v.rounds.front(), v.rounds.back());
          by && c.kill)
        kills[*by].push_back(c.kill->kill);
  std::vector<KillOf> list;
  for (auto& [vaporizer, values] : kills) fill(list.emplace_back(KillOf{{}, vaporizer}), values);
  return list;
}

KillBand yard_kill(const Farm& farm, YardId yard, const std::vector<CourseVerdict>& verdicts) {
  KillBand band = usual_kill(farm);
  for (const CourseVerdict& v : verdicts) {
    if (v.yard != yard || !v.kill) continue;
    band.learned = v.kill->kill;
    band.low = v.kill->low, band.high = v.kill->high;
    band.source = fmt::format("learned from this yard's washes around the course of {}",
                              iso_date(v.rounds.front()));
  }
  return band;
}

std::vector<FailingYard> failing_yards(const Farm& farm,
                                       const std::vector<CourseVerdict>& verdicts) {
  std::map<YardId, int> in_a_row;
  for (const CourseVerdict& v : verdicts) in_a_row[v.yard] = v.failed ? in_a_row[v.yard] + 1 : 0;
  std::vector<FailingYard> list;
  for (const auto& [yard, n] : in_a_row)
    if (n >= 2)
      list.push_back({yard, n,
                      fmt::format("{}: the last {} courses failed: {}.", farm.yards.at(yard).name,
                                  n, kCheckWhy)});
  return list;
}

}  // namespace engine
