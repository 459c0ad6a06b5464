#include "engine/season/course_pairs.h"

#include <algorithm>
#include <cstdlib>

#include "engine/farm/queries.h"
#include "engine/mites/fit_kill.h"
#include "engine/rounds/due.h"
#include "engine/season/assumed.h"
#include "engine/season/given.h"

namespace engine {
namespace {

constexpr int kBestAfter = 14;

}  // namespace

std::vector<Date> rounds_walked(const Farm& farm, const Course& course) {
  std::vector<Date> list;
  for (const RoundState& r : rounds_of(farm, course))
    if (r.walked) list.push_back(local_date(farm.walks.at(*r.walked).opened));
  return list;
}

// The last wash before the first round, and the one nearest to two weeks after the last.
std::optional<CoursePair> pair_of(const Farm& farm, ColonyId colony,
                                  const std::vector<Date>& rounds, Date today) {
  const Date first = rounds.front(), last = rounds.back();
  std::optional<Spell> before, after;
  const auto off = [&](const Spell& s) { return std::abs(days_apart(last, s.first) - kBestAfter); };
  for (Spell& s : spells(farm, colony, today)) {
    const int since = days_apart(last, s.first);
    if (s.last <= first && days_apart(s.last, first) <= kBeforeMost) before = s;
    if (since >= kAfterLeast && since <= kAfterMost && (!after || off(s) < off(*after))) after = s;
  }
  if (!before || !after) return std::nullopt;
  return CoursePair{colony, std::move(*before), std::move(*after)};
}

bool treated_between(const Farm& farm, ColonyId colony, Date from, Date to) {
  const std::vector<Date> given = days_treated(farm, colony);
  const auto at = std::lower_bound(given.begin(), given.end(), from);
  return at != given.end() && *at <= to;
}

std::vector<CoursePair> treated_pairs(const Farm& farm, YardId yard,
                                      const std::vector<Date>& rounds, Date today) {
  std::vector<CoursePair> treated;
  for (const Colony* c : colonies_of(farm, yard)) {
    auto pair = pair_of(farm, c->id, rounds, today);
    if (pair && treated_between(farm, c->id, rounds.front(), rounds.back()))
      treated.push_back(std::move(*pair));
  }
  return treated;
}

mites::Wash sum_of(const std::vector<CoursePair>& pairs, Spell CoursePair::*which) {
  std::vector<mites::Wash> washes;
  for (const CoursePair& p : pairs) washes.push_back((p.*which).pooled());
  return mites::pooled(washes);
}

std::optional<LearnedKill> learned_kill(const Farm& farm, YardId yard,
                                        const std::vector<Date>& rounds,
                                        const std::vector<CoursePair>& pairs) {
  const mites::Wash before = sum_of(pairs, &CoursePair::before);
  if (before.mites == 0) return std::nullopt;
  const CoursePair& p = pairs.front();
  const Date day0 = p.before.last;
  const auto& brood = farm.colonies.at(p.colony).brood;
  const mites::Colony colony = assumed_colony(brood, farm.yards.at(yard).place, day0).colony;
  const mites::ColonyState start = mites::start_of(colony, {mites::LoadUnit::WashPer100, 1});
  mites::Treatment treatment;
  for (const Date d : rounds) treatment.days.push_back(days_apart(day0, d));
  const int post_day = days_apart(day0, p.after.first);
  const mites::Efficacy change = mites::efficacy(
      mites::EfficacyMethod::Reduction, {sum_of(pairs, &CoursePair::after), before, {1, 1}, {1, 1}},
      pairs.size() > 1 ? kPooledSpread : 1);
  const auto at = [&](double percent) {
    return mites::fit_kill(colony, start, treatment, 0, post_day, 1 - percent / 100);
  };
  const mites::KillFit middle = at(change.percent);
  return LearnedKill{middle.kill, at(change.low).kill, at(change.high).kill,
                     middle.bounded.has_value()};
}

bool clearly_failed(const Farm& farm, const std::optional<LearnedKill>& learned) {
  return learned && learned->high < usual_kill(farm).low;
}

}  // namespace engine
