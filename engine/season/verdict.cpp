#include "engine/season/verdict.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "engine/farm/queries.h"
#include "engine/rounds/due.h"
#include "engine/season/headline.h"
#include "engine/season/lessons.h"
#include "engine/words/words.h"

namespace engine {
namespace {

using mites::EfficacyMethod;

struct Judging {
  const Farm& farm;
  const Course& course;
  std::vector<Date> rounds;
  std::vector<CoursePair> here;       // untreated ones of the yard
  std::vector<CoursePair> untreated;  // those, or of other yards where it has none

  [[nodiscard]] EfficacyMethod method() const {
    return untreated.empty() ? EfficacyMethod::Reduction : EfficacyMethod::HendersonTilton;
  }
};

Judging judging(const Farm& farm, const Course& course, std::vector<Date> rounds, Date today) {
  Judging j{farm, course, std::move(rounds), {}, {}};
  j.here = j.untreated = controls_here(farm, course.yard, j.rounds, today);
  if (!j.here.empty()) return j;
  for (const auto& [id, colony] : farm.colonies)
    if (colony.yard != course.yard)
      if (auto pair = control(farm, id, j.rounds, today)) j.untreated.push_back(std::move(*pair));
  return j;
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

std::string kill_words(const std::optional<KillBand>& k) {
  if (!k) return {};
  return fmt::format(
      " One round kills {:.0f} to {:.0f} % of the mites it can reach, most likely {:.0f} % "
      "(model, by this course alone).",
      100 * k->low, 100 * k->high, 100 * k->mid);
}

std::optional<KillBand> kill_of(const Judging& j, const std::vector<CoursePair>& treated) {
  const auto groups = taught_by(j.farm, j.course, treated);
  if (groups.empty()) return std::nullopt;
  const mites::LearnedZ z(mites::lesson_of(groups).log_likelihood);
  return band_of({z, 1}, groups.front().dose_g, "learned from this course");
}

ColonyVerdict judge(const Judging& j, const CoursePair& pair) {
  ColonyVerdict v{pair.colony, pair.before, pair.after, effect_of({pair}, j.untreated), false, {}};
  v.failed = clearly_failed(j.farm, j.course, {pair}, j.here);
  v.sentence =
      fmt::format("{}: {}.", colony_name(j.farm, pair.colony), effect_words(j.method(), v.effect));
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
  if (days_apart(v.rounds.front(), v.rounds.back()) < kShortSpan && v.rounds.size() > 1)
    v.cautions.emplace_back(kShortSpanWords);
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
  const Judging j = judging(farm, course, v.rounds, today);
  v.method = j.method();
  v.untreated = j.untreated.size();
  v.effect = effect_of(treated, j.untreated);
  v.kill = kill_of(j, treated);
  v.failed = clearly_failed(farm, course, treated, j.here);
  for (const CoursePair& p : treated) v.colonies.push_back(judge(j, p));
  v.coming_in = mites_coming_in(farm, course.yard, today);
  v.headline = headline_of(farm, course, v, today);
  v.sentence =
      fmt::format("{}, {} counted before and after: {}.{}", farm.yards.at(course.yard).name,
                  counted(treated.size(), "colony", "colonies"), effect_words(v.method, v.effect),
                  kill_words(v.kill));
  add_cautions(j, course, v);
  return v;
}

}  // namespace engine
