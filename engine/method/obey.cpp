#include "engine/method/obey.h"

#include <fmt/format.h>

#include <algorithm>
#include <map>
#include <set>

#include "engine/farm/queries.h"
#include "engine/season/given.h"

namespace engine {
namespace {

std::string counted_days(int n) { return n == 1 ? "1 day" : fmt::format("{} days", n); }

const LabelLimits* limits_in_force(const Farm& farm) {
  const auto& rules = farm.setup.rules;
  return rules && rules->limits ? &*rules->limits : nullptr;
}

// Days of that year with vapor, before `on`.
int uses_before(const Farm& farm, ColonyId colony, Date on) {
  const std::vector<Date> given = vapor_days(farm, colony);
  return static_cast<int>(std::count_if(given.begin(), given.end(),
                                        [&](Date d) { return d.year() == on.year() && d < on; }));
}

int most_uses_before(const Farm& farm, YardId yard, Date on) {
  int most = 0;
  for (const Colony* c : colonies_to_treat(farm, yard))
    most = std::max(most, uses_before(farm, c->id, on));
  return most;
}

void judge_gaps(const LabelLimits& l, const std::vector<Date>& rounds,
                std::vector<std::string>& out) {
  if (!l.min_interval_days) return;
  for (std::size_t i = 1; i < rounds.size(); ++i)
    if (const int gap = days_apart(rounds[i - 1], rounds[i]); gap < *l.min_interval_days)
      return void(
          out.push_back(fmt::format("The label wants {} between rounds; {} and {} are {} "
                                    "apart.",
                                    counted_days(*l.min_interval_days), iso_date(rounds[i - 1]),
                                    iso_date(rounds[i]), counted_days(gap))));
}

void judge_years(const Farm& farm, YardId yard, const LabelLimits& l,
                 const std::vector<Date>& rounds, std::vector<std::string>& out) {
  if (!l.uses_per_year || *l.uses_per_year == 0 || rounds.empty()) return;
  std::map<int, int> in_year;
  for (const Date d : rounds) ++in_year[static_cast<int>(d.year())];
  const int year = static_cast<int>(rounds.front().year());
  const int before = most_uses_before(farm, yard, rounds.front());
  for (const auto& [y, n] : in_year)
    if (const int all = n + (y == year ? before : 0); all > *l.uses_per_year)
      out.push_back(fmt::format("The label allows {} a year; this would make {} in {}.",
                                *l.uses_per_year == 1
                                    ? std::string("one treatment")
                                    : fmt::format("{} treatments", *l.uses_per_year),
                                all, y));
}

void judge_brood(const Farm& farm, YardId yard, const LabelLimits& l, Date first,
                 std::vector<std::string>& out) {
  if (!l.brood || *l.brood == BroodNeed::Any) return;
  std::size_t with = 0;
  for (const Colony* c : colonies_to_treat(farm, yard))
    if (brood_on(c->brood, first) == BroodState::Present) ++with;
  if (with > 0)
    out.push_back(
        fmt::format("The label is for colonies without brood or with the least of the "
                    "year; brood was seen in {}.",
                    with));
}

}  // namespace

std::vector<std::string> against_label(const Farm& farm, const VaporAsked& asked,
                                       const LabelRules& rules) {
  const auto at = farm.colonies.find(asked.colony);
  if (at == farm.colonies.end()) return {};
  MethodRules vapor;
  vapor.method = Method::Vapor;
  MethodSituation now;
  now.on = asked.on;
  now.supers_on = asked.supers_on;
  now.brood = brood_on(at->second.brood, asked.on);
  // What was given on the day itself is the same treatment.
  for (const Date d : vapor_days(farm, asked.colony)) {
    if (d >= asked.on) break;
    now.last_use = d;
    if (d.year() == asked.on.year()) ++now.uses_this_year;
  }
  std::vector<std::string> lines;
  for (const MethodReason& r : check(with_label(vapor, rules), now).reasons)
    if (r.verdict == MethodVerdict::NotNow) lines.push_back(r.line);
  return lines;
}

std::vector<std::string> against_label(const Farm& farm, const std::vector<ColonyId>& colonies,
                                       const LabelRules& rules, Date on) {
  std::vector<std::pair<std::string, std::size_t>> found;
  for (const ColonyId colony : colonies) {
    const VaporAsked asked{colony, on, false};
    for (const std::string& line : against_label(farm, asked, rules)) {
      auto at =
          std::find_if(found.begin(), found.end(), [&](const auto& f) { return f.first == line; });
      if (at == found.end()) at = found.insert(at, {line, 0});
      ++at->second;
    }
  }
  std::vector<std::string> lines;
  for (const auto& [line, n] : found)
    lines.push_back(n == colonies.size() ? line
                                         : fmt::format("{} of {}: {}", n, colonies.size(), line));
  return lines;
}

std::vector<ColonyId> brood_not_known(const Farm& farm, const std::vector<ColonyId>& colonies,
                                      const LabelRules& rules, Date on) {
  std::vector<ColonyId> unknown;
  const auto asks = rules.limits ? rules.limits->brood : std::nullopt;
  if (!asks || *asks == BroodNeed::Any) return unknown;
  for (const ColonyId colony : colonies) {
    const auto at = farm.colonies.find(colony);
    if (at != farm.colonies.end() && brood_on(at->second.brood, on) == BroodState::Unknown)
      unknown.push_back(colony);
  }
  return unknown;
}

std::string brood_question(const Farm& farm, const std::vector<ColonyId>& colonies,
                           const LabelRules& rules, Date on) {
  const std::size_t unknown = brood_not_known(farm, colonies, rules, on).size();
  if (unknown == 0) return {};
  return fmt::format("CHECK YOUR LABEL: brood not known in {} of {}, it wants {}.", unknown,
                     colonies.size(),
                     *rules.limits->brood == BroodNeed::None ? "none" : "none or the least");
}

std::string brood_question(const Farm& farm, YardId yard, Date on) {
  if (!farm.setup.rules) return {};
  std::vector<ColonyId> colonies;
  for (const Colony* c : colonies_to_treat(farm, yard)) colonies.push_back(c->id);
  return brood_question(farm, colonies, *farm.setup.rules, on);
}

std::optional<int> rounds_left(const Farm& farm, YardId yard, Date begins) {
  const LabelLimits* l = limits_in_force(farm);
  if (l == nullptr) return std::nullopt;
  std::optional<int> left;
  if (l->most_rounds && *l->most_rounds > 0) left = *l->most_rounds;
  if (l->uses_per_year && *l->uses_per_year > 0) {
    const int rest = std::max(0, *l->uses_per_year - most_uses_before(farm, yard, begins));
    left = std::min(left.value_or(rest), rest);
  }
  return left;
}

std::vector<std::string> course_against_label(const Farm& farm, YardId yard,
                                              const std::vector<Date>& rounds) {
  std::vector<std::string> out;
  const LabelLimits* l = limits_in_force(farm);
  if (l == nullptr || rounds.empty()) return out;
  if (l->most_rounds && *l->most_rounds > 0 &&
      rounds.size() > static_cast<std::size_t>(*l->most_rounds))
    out.push_back(fmt::format(
        "The label allows {} in one course; these are {}.",
        *l->most_rounds == 1 ? std::string("one round") : fmt::format("{} rounds", *l->most_rounds),
        rounds.size()));
  judge_years(farm, yard, *l, rounds, out);
  judge_gaps(*l, rounds, out);
  judge_brood(farm, yard, *l, rounds.front(), out);
  return out;
}

int label_gap(const Farm& farm) {
  const LabelLimits* l = limits_in_force(farm);
  return l && l->min_interval_days ? std::max(1, *l->min_interval_days) : 1;
}

}  // namespace engine
