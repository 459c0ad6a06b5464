#include "engine/season/verdict.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "engine/farm/queries.h"
#include "engine/rounds/due.h"
#include "engine/season/course_pairs.h"
#include "engine/words/words.h"

namespace engine {
namespace {

using mites::EfficacyMethod;

constexpr int kControlsNear = 10;  // days that controls may be counted apart from the treated

struct Judging {
  const Farm& farm;
  YardId yard;
  std::vector<Date> rounds;
  std::vector<CoursePair> untreated;

  [[nodiscard]] EfficacyMethod method() const {
    return untreated.empty() ? EfficacyMethod::Reduction : EfficacyMethod::HendersonTilton;
  }

  [[nodiscard]] mites::Efficacy effect(const std::vector<CoursePair>& treated) const {
    mites::EfficacyCounts counts;
    counts.treated_before = sum_of(treated, &CoursePair::before);
    counts.treated_after = sum_of(treated, &CoursePair::after);
    counts.control_before = sum_of(untreated, &CoursePair::before);
    counts.control_after = sum_of(untreated, &CoursePair::after);
    const double phi = treated.size() + untreated.size() > 2 ? kPooledSpread : 1;
    return mites::efficacy(method(), counts, phi);
  }

  [[nodiscard]] std::optional<LearnedKill> kill(const std::vector<CoursePair>& treated) const {
    return learned_kill(farm, yard, rounds, treated);
  }
};

// A colony that was given nothing between its two washes, counted when the treated were.
std::optional<CoursePair> control(const Farm& farm, ColonyId id, const std::vector<Date>& rounds,
                                  Date today) {
  auto pair = pair_of(farm, id, rounds, today);
  if (!pair || treated_between(farm, id, pair->before.first, pair->after.last)) return std::nullopt;
  if (days_apart(pair->before.last, rounds.front()) > kBeforeMost - kControlsNear)
    return std::nullopt;
  return pair;
}

// Those of the yard are best; those of other yards serve when it has none.
std::vector<CoursePair> controls(const Farm& farm, YardId yard, const std::vector<Date>& rounds,
                                 Date today) {
  std::vector<CoursePair> here, elsewhere;
  for (const auto& [id, colony] : farm.colonies)
    if (colony.yard == yard)
      if (auto pair = control(farm, id, rounds, today)) here.push_back(std::move(*pair));
  if (!here.empty()) return here;
  for (const auto& [id, colony] : farm.colonies)
    if (colony.yard != yard)
      if (auto pair = control(farm, id, rounds, today)) elsewhere.push_back(std::move(*pair));
  return elsewhere;
}

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

ColonyVerdict judge(const Judging& j, const CoursePair& pair) {
  ColonyVerdict v{pair.colony,    pair.before, pair.after, j.effect({pair}),
                  j.kill({pair}), false,       {}};
  v.failed = clearly_failed(j.farm, v.kill);
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
  const std::vector<CoursePair> treated = treated_pairs(farm, course.yard, v.rounds, today);
  if (treated.empty()) return std::nullopt;
  const Judging j{farm, course.yard, v.rounds, controls(farm, course.yard, v.rounds, today)};
  v.method = j.method();
  v.untreated = j.untreated.size();
  v.effect = j.effect(treated);
  v.kill = j.kill(treated);
  v.failed = clearly_failed(j.farm, v.kill);
  for (const CoursePair& p : treated) v.colonies.push_back(judge(j, p));
  v.sentence =
      fmt::format("{}, {} counted before and after: {}.{}", farm.yards.at(course.yard).name,
                  counted(treated.size(), "colony", "colonies"), effect_words(v.method, v.effect),
                  kill_words(v.kill));
  if (v.failed) v.sentence += fmt::format(" The course clearly failed: {}.", kCheckWhy);
  add_cautions(j, course, v);
  return v;
}

}  // namespace engine
