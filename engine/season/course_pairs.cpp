#include "engine/season/course_pairs.h"

#include <algorithm>
#include <cstdlib>

#include "engine/farm/queries.h"
#include "engine/rounds/due.h"
#include "engine/season/given.h"
#include "engine/season/lessons.h"

namespace engine {
namespace {

constexpr int kBestAfter = 14;
constexpr int kControlsNear = 10;  // days that controls may be counted apart from the treated

mites::PairSpread spread_among(const std::vector<CoursePair>& pairs) {
  std::vector<mites::WashPair> washes;
  for (const CoursePair& p : pairs) washes.push_back({p.before.pooled(), p.after.pooled()});
  return mites::pair_spread(washes);
}

// The treated around their ratio and the untreated around theirs, taken together.
double spread_of(const std::vector<CoursePair>& treated, const std::vector<CoursePair>& untreated) {
  const mites::PairSpread a = spread_among(treated), b = spread_among(untreated);
  return mites::overdispersion({a.x2 + b.x2, a.df + b.df});
}

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

std::optional<CoursePair> control(const Farm& farm, ColonyId id, const std::vector<Date>& rounds,
                                  Date today) {
  auto pair = pair_of(farm, id, rounds, today);
  if (!pair || treated_between(farm, id, pair->before.first, pair->after.last)) return std::nullopt;
  if (days_apart(pair->before.last, rounds.front()) > kBeforeMost - kControlsNear)
    return std::nullopt;
  return pair;
}

std::vector<CoursePair> controls_here(const Farm& farm, YardId yard,
                                      const std::vector<Date>& rounds, Date today) {
  std::vector<CoursePair> here;
  for (const auto& [id, colony] : farm.colonies)
    if (colony.yard == yard)
      if (auto pair = control(farm, id, rounds, today)) here.push_back(std::move(*pair));
  return here;
}

mites::Efficacy effect_of(const std::vector<CoursePair>& treated,
                          const std::vector<CoursePair>& untreated) {
  mites::EfficacyCounts counts;
  counts.treated_before = sum_of(treated, &CoursePair::before);
  counts.treated_after = sum_of(treated, &CoursePair::after);
  counts.control_before = sum_of(untreated, &CoursePair::before);
  counts.control_after = sum_of(untreated, &CoursePair::after);
  const bool several = treated.size() + untreated.size() > 2;
  const auto method =
      untreated.empty() ? mites::EfficacyMethod::Reduction : mites::EfficacyMethod::HendersonTilton;
  return mites::efficacy(method, counts, several ? spread_of(treated, untreated) : 1);
}

bool clearly_failed(const Farm& farm, const Course& course, const std::vector<CoursePair>& treated,
                    const std::vector<CoursePair>& here) {
  const auto groups = taught_by(farm, course, treated);
  if (groups.empty() || sum_of(treated, &CoursePair::before).mites == 0) return false;
  return effect_of(treated, here).high < field_percent(groups, !here.empty());
}

}  // namespace engine
