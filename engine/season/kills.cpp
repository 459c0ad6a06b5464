#include "engine/season/kills.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "engine/season/lessons.h"
#include "engine/words/words.h"

namespace engine {
namespace {

std::string source_words(const char* whose, std::size_t courses) {
  return fmt::format("learned from {} {}", counted(courses, "course", "courses"), whose);
}

}  // namespace

KillBand band_of(const KillsLearned& learned, double dose_g, std::string source) {
  const mites::Constants constants;
  const auto at = [&](double q) {
    return mites::kill_at(learned.z.quantile(q), dose_g, constants);
  };
  return {at(0.1), at(0.5), at(0.9), learned.courses, std::move(source)};
}

KillBand kill_band(Mass per_box) {
  const double grams = static_cast<double>(per_box.mg) / 1000;
  return band_of({}, grams,
                 "between what field trials and what exposed mites show; assumed in between");
}

double usual_dose_g(const Farm& farm) {
  Mass per_box{1000};
  if (farm.setup.rules)
    per_box = dihydrate(*farm.setup.rules, farm.setup.rules->per_brood_box).value_or(per_box);
  const double grams = static_cast<double>(per_box.mg) / 1000;
  return mites::teaches_at(grams, {}) ? grams : 1;
}

KillBand usual_kill(const Farm& farm) {
  return kill_band(Mass{std::llround(usual_dose_g(farm) * 1000)});
}

KillSurvey::KillSurvey(const Farm& farm, Date today) : today_(today) {
  for (const auto& [id, course] : farm.courses) courses_.push_back(id);
  std::stable_sort(courses_.begin(), courses_.end(), [&](const CourseId& a, const CourseId& b) {
    return farm.courses.at(a).rounds.front() < farm.courses.at(b).rounds.front();
  });
}

void KillSurvey::go_on(const Farm& farm, std::size_t courses) {
  for (; courses > 0 && !whole(); --courses) {
    const CourseId id = courses_.back();
    courses_.pop_back();
    look_into(farm, id);
  }
}

void KillSurvey::look_into(const Farm& farm, CourseId id) {
  const Course& course = farm.courses.at(id);
  const std::vector<Date> rounds = rounds_walked(farm, course);
  if (rounds.empty()) return;
  const std::vector<CoursePair> treated = treated_pairs(farm, course.yard, rounds, today_);
  const std::vector<mites::TaughtCourse> groups = taught_by(farm, course, treated);
  if (groups.empty()) return;
  const mites::Lesson lesson = mites::lesson_of(groups);
  outfit_.add(lesson);
  yards_[course.yard].add(lesson);
  if (const auto by = main_vaporizer(farm, treated, rounds.front(), rounds.back()))
    vaporizers_[*by].add(lesson);
}

void KillSurvey::Sum::add(const mites::Lesson& lesson) {
  for (std::size_t i = 0; i < log_likelihood.size(); ++i)
    log_likelihood[i] += lesson.log_likelihood[i];
  ++courses;
}

KillsLearned KillSurvey::Sum::learned() const { return {mites::LearnedZ(log_likelihood), courses}; }

std::optional<KillsLearned> KillSurvey::of_outfit() const {
  if (outfit_.courses == 0) return std::nullopt;
  return outfit_.learned();
}

std::optional<KillsLearned> KillSurvey::of_yard(YardId yard) const {
  const auto at = yards_.find(yard);
  if (at == yards_.end() || at->second.courses < kOwnFrom) return std::nullopt;
  return at->second.learned();
}

std::map<KitId, KillsLearned> KillSurvey::by_vaporizer() const {
  std::map<KitId, KillsLearned> all;
  for (const auto& [vaporizer, sum] : vaporizers_)
    if (sum.courses >= kOwnFrom) all[vaporizer] = sum.learned();
  return all;
}

KillBand KillSurvey::band(YardId yard, double dose_g) const {
  if (const auto own = of_yard(yard))
    return band_of(*own, dose_g, source_words("in this yard", own->courses));
  if (const auto all = of_outfit())
    return band_of(*all, dose_g, source_words("of yours", all->courses));
  return kill_band(Mass{std::llround(dose_g * 1000)});
}

KillBand yard_kill(const Farm& farm, YardId yard, Date today) {
  KillSurvey survey(farm, today);
  survey.go_on(farm, farm.courses.size());
  return survey.band(yard, usual_dose_g(farm));
}

}  // namespace engine
