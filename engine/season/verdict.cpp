#include "engine/season/verdict.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "engine/course/due.h"
#include "engine/farm/views.h"
#include "engine/mites/fit_kill.h"
#include "engine/register/words.h"
#include "engine/season/assumed.h"
#include "engine/season/given.h"
#include "engine/season/outlook.h"

namespace engine {
namespace {

using mites::EfficacyMethod;

constexpr double kPooledSpread = 2;  // several colonies vary by more than chance
constexpr int kBestAfter = 14;
constexpr int kControlsNear = 10;  // days that controls may be counted apart from the treated

struct Pair {
  ColonyId colony;
  Spell before, after;
};

std::vector<Date> rounds_walked(const Farm& farm, const Course& course) {
  std::vector<Date> list;
  for (const RoundState& r : rounds_of(farm, course))
    if (r.walked) list.push_back(local_date(farm.walks.at(*r.walked).opened));
  return list;
}

// The last wash before the first round, and the one nearest to two weeks after the last.
std::optional<Pair> pair_of(const Farm& farm, ColonyId colony, Date first, Date last, Date today) {
  std::optional<Spell> before, after;
  const auto off = [&](const Spell& s) { return std::abs(days_apart(last, s.first) - kBestAfter); };
  for (Spell& s : spells(farm, colony, today)) {
    const int since = days_apart(last, s.first);
    if (s.last <= first && days_apart(s.last, first) <= kBeforeMost) before = s;
    if (since >= kAfterLeast && since <= kAfterMost && (!after || off(s) < off(*after))) after = s;
  }
  if (!before || !after) return std::nullopt;
  return Pair{colony, std::move(*before), std::move(*after)};
}

bool treated_between(const Farm& farm, ColonyId colony, Date from, Date to) {
  const std::vector<Date> given = days_treated(farm, colony);
  return std::any_of(given.begin(), given.end(), [&](Date d) { return d >= from && d <= to; });
}

mites::Wash sum(const std::vector<Pair>& pairs, Spell Pair::*which) {
  std::vector<mites::Wash> washes;
  for (const Pair& p : pairs) washes.push_back((p.*which).pooled());
  return mites::pooled(washes);
}

// Colonies that were given nothing between their two washes, counted when the treated were. Those
// of the yard are best; those of other yards serve when it has none.
std::vector<Pair> controls(const Farm& farm, YardId yard, Date first, Date last, Date today) {
  std::vector<Pair> here, elsewhere;
  for (const auto& [id, colony] : farm.colonies) {
    auto pair = pair_of(farm, id, first, last, today);
    if (!pair || treated_between(farm, id, pair->before.first, pair->after.last)) continue;
    if (days_apart(pair->before.last, first) > kBeforeMost - kControlsNear) continue;
    (colony.yard == yard ? here : elsewhere).push_back(std::move(*pair));
  }
  return here.empty() ? elsewhere : here;
}

struct Judging {
  const Farm& farm;
  YardId yard;
  std::vector<Date> rounds;
  std::vector<Pair> untreated;

  [[nodiscard]] EfficacyMethod method() const {
    return untreated.empty() ? EfficacyMethod::Reduction : EfficacyMethod::HendersonTilton;
  }

  [[nodiscard]] mites::Efficacy effect(const std::vector<Pair>& treated) const {
    mites::EfficacyCounts counts;
    counts.treated_before = sum(treated, &Pair::before);
    counts.treated_after = sum(treated, &Pair::after);
    counts.control_before = sum(untreated, &Pair::before);
    counts.control_after = sum(untreated, &Pair::after);
    const double phi = treated.size() + untreated.size() > 2 ? kPooledSpread : 1;
    return mites::efficacy(method(), counts, phi);
  }

  // The kill that turns the first wash into the second, whatever untreated colonies did.
  [[nodiscard]] std::optional<LearnedKill> kill(const std::vector<Pair>& treated) const {
    const mites::Wash before = sum(treated, &Pair::before);
    if (before.mites == 0) return std::nullopt;
    const Pair& p = treated.front();
    const Date day0 = p.before.last;
    const auto& brood = farm.colonies.at(p.colony).brood;
    const mites::Colony colony = assumed_colony(brood, farm.yards.at(yard).place, day0).colony;
    const mites::ColonyState start = mites::start_of(colony, {mites::LoadUnit::WashPer100, 1});
    mites::Treatment treatment;
    for (const Date d : rounds) treatment.days.push_back(days_apart(day0, d));
    const int post_day = days_apart(day0, p.after.first);
    const mites::Efficacy change = mites::efficacy(
        EfficacyMethod::Reduction, {sum(treated, &Pair::after), before, {1, 1}, {1, 1}},
        treated.size() > 1 ? kPooledSpread : 1);
    const auto at = [&](double percent) {
      return mites::fit_kill(colony, start, treatment, 0, post_day, 1 - percent / 100);
    };
    const mites::KillFit middle = at(change.percent);
    return LearnedKill{middle.kill, at(change.low).kill, at(change.high).kill,
                       middle.bounded.has_value()};
  }

  // Only a clear failure is called one: the best that the counts allow falls short of what the
  // weaker field trials show.
  [[nodiscard]] bool failed(const std::optional<LearnedKill>& learned) const {
    return learned && learned->high < usual_kill(farm).low;
  }
};

std::string effect_words(EfficacyMethod method, const mites::Efficacy& e) {
  if (method != EfficacyMethod::Reduction)
    return fmt::format("efficacy {:.0f} % (95 % limits {:.0f} to {:.0f})", e.percent, e.low,
                       e.high);
  const char* way = e.percent >= 0 ? "fewer" : "more";
  return fmt::format(
      "{:.0f} % {} mites per bee than before (95 % limits {:+.0f} to {:+.0f} %); a "
      "change, not an efficacy",
      std::abs(e.percent), way, -e.high, -e.low);
}

std::string kill_words(const std::optional<LearnedKill>& k) {
  if (!k) return {};
  return fmt::format(
      " One round killed about {:.0f} % of the mites it could reach, {:.0f} to "
      "{:.0f} % (model){}.",
      100 * k->kill, 100 * k->low, 100 * k->high,
      k->at_edge ? "; no kill explains the counts well" : "");
}

ColonyVerdict judge(const Judging& j, const Pair& pair) {
  ColonyVerdict v{pair.colony,    pair.before, pair.after, j.effect({pair}),
                  j.kill({pair}), false,       {}};
  v.failed = j.failed(v.kill);
  v.sentence = fmt::format("{}: {}.{}", colony_name(j.farm, pair.colony),
                           effect_words(j.method(), v.effect), kill_words(v.kill));
  if (v.failed) v.sentence += fmt::format(" The treatment clearly failed here: {}.", kCheckWhy);
  return v;
}

void add_cautions(const Judging& j, const Course& course, CourseVerdict& v) {
  if (j.untreated.empty())
    v.cautions.emplace_back(
        "No untreated colony was counted at the same times: mites also come and go by themselves.");
  else if (v.untreated == 1)
    v.cautions.emplace_back("Only one untreated colony was counted: it may be an odd one.");
  if (v.effect.zero_corrected)
    v.cautions.emplace_back("A count was 0: half a mite was added to each, to have limits at all.");
  const auto soon = [&](const ColonyVerdict& c) {
    return days_apart(v.rounds.back(), c.after.first) < kDaysToPostLeast;
  };
  if (std::any_of(v.colonies.begin(), v.colonies.end(), soon))
    v.cautions.emplace_back("Counted less than ten days after the last round: too early to trust.");
  if (v.rounds.size() < course.rounds.size())
    v.cautions.push_back(
        fmt::format("{} of {} rounds were walked.", v.rounds.size(), course.rounds.size()));
  v.cautions.emplace_back(kModelCaution);
}

}  // namespace

std::optional<CourseVerdict> course_verdict(const Farm& farm, CourseId id, Date today) {
  const auto at = farm.courses.find(id);
  if (at == farm.courses.end()) return std::nullopt;
  const Course& course = at->second;
  CourseVerdict v;
  v.course = id;
  v.yard = course.yard;
  v.rounds = rounds_walked(farm, course);
  if (v.rounds.empty()) return std::nullopt;
  const Date first = v.rounds.front(), last = v.rounds.back();
  const Judging j{farm, course.yard, v.rounds, controls(farm, course.yard, first, last, today)};
  std::vector<Pair> treated;
  for (const Colony* c : colonies_of(farm, course.yard)) {
    auto pair = pair_of(farm, c->id, first, last, today);
    if (pair && treated_between(farm, c->id, first, last)) treated.push_back(std::move(*pair));
  }
  if (treated.empty()) return std::nullopt;
  v.method = j.method();
  v.untreated = j.untreated.size();
  v.effect = j.effect(treated);
  v.kill = j.kill(treated);
  v.failed = j.failed(v.kill);
  for (const Pair& p : treated) v.colonies.push_back(judge(j, p));
  v.sentence =
      fmt::format("{}, {} counted before and after: {}.{}", farm.yards.at(course.yard).name,
                  counted(treated.size(), "colony", "colonies"), effect_words(v.method, v.effect),
                  kill_words(v.kill));
  if (v.failed) v.sentence += fmt::format(" The course clearly failed: {}.", kCheckWhy);
  add_cautions(j, course, v);
  return v;
}

std::vector<CourseVerdict> course_verdicts(const Farm& farm, Date today) {
  std::vector<CourseVerdict> list;
  for (const auto& [id, course] : farm.courses)
    if (auto v = course_verdict(farm, id, today)) list.push_back(std::move(*v));
  std::stable_sort(list.begin(), list.end(), [](const auto& a, const auto& b) {
    return a.rounds.front() < b.rounds.front();
  });
  return list;
}

}  // namespace engine
