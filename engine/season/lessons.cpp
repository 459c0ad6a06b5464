#include "engine/season/lessons.h"

#include <algorithm>
#include <map>

#include "engine/farm/queries.h"
#include "engine/rounds/due.h"
#include "engine/season/assumed.h"
#include "engine/season/given.h"

namespace engine {
namespace {

bool alike(const mites::TaughtCourse& a, const mites::TaughtCourse& b) {
  const auto same = [](const mites::Cage& x, const mites::Cage& y) {
    return x.from == y.from && x.until == y.until;
  };
  return a.post_day == b.post_day && a.treatment.days == b.treatment.days &&
         std::equal(a.colony.cages.begin(), a.colony.cages.end(), b.colony.cages.begin(),
                    b.colony.cages.end(), same);
}

bool otherwise_treated(const Farm& farm, const CoursePair& p) {
  const auto& given = farm.otherwise_treated.of(p.colony);
  return std::any_of(given.begin(), given.end(), [&](const OtherGiven& o) {
    return o.on >= p.before.last && o.on <= p.after.first;
  });
}

mites::TaughtCourse taught(const Farm& farm, const Course& course, const CoursePair& p,
                           double dose_g) {
  mites::TaughtCourse t;
  const Date day0 = p.before.last;
  const auto& brood = farm.colonies.at(p.colony).brood;
  t.colony = assumed_colony(brood, farm.yards.at(course.yard).place, day0).colony;
  t.load = {mites::LoadUnit::WashPer100, 1};
  t.dose_g = dose_g;
  t.post_day = days_apart(day0, p.after.first);
  for (const Date on : vapor_days(farm, p.colony))
    if (on >= day0 && on < p.after.first) t.treatment.days.push_back(days_apart(day0, on));
  return t;
}

// Grams a box of each setting of the walk.
void add_doses(const Walk& walk, double& grams, int& settings) {
  for (const Stop& stop : walk.stops)
    for (const Treatment& t : stop.treatments) {
      const Mass pure = dihydrate(walk.rules, t.dose).value_or(t.dose);
      grams += static_cast<double>(pure.mg) / 1000 / std::max(1, t.brood_boxes);
      ++settings;
    }
}

}  // namespace

double course_dose_g(const Farm& farm, const Course& course) {
  double grams = 0;
  int settings = 0;
  for (const RoundState& r : rounds_of(farm, course))
    if (r.walked) add_doses(farm.walks.at(*r.walked), grams, settings);
  const double mean = settings > 0 ? grams / settings : 0;
  return mites::teaches_at(mean, {}) ? mean : usual_dose_g(farm);
}

std::vector<mites::TaughtCourse> taught_by(const Farm& farm, const Course& course,
                                           const std::vector<CoursePair>& treated) {
  const double dose_g = course_dose_g(farm, course);
  std::vector<mites::TaughtCourse> groups;
  std::vector<Date> day0;  // of each group
  for (const CoursePair& p : treated) {
    if (otherwise_treated(farm, p) || p.before.last >= p.after.first) continue;
    mites::TaughtCourse t = taught(farm, course, p, dose_g);
    std::size_t i = 0;
    while (i < groups.size() && !(day0[i] == p.before.last && alike(groups[i], t))) ++i;
    if (i == groups.size()) groups.push_back(std::move(t)), day0.push_back(p.before.last);
    groups[i].pairs.push_back({p.before.pooled(), p.after.pooled()});
  }
  return groups;
}

double field_percent(const std::vector<mites::TaughtCourse>& groups, bool against_untreated) {
  double after = 0, before = 0;
  for (const mites::TaughtCourse& g : groups) {
    const double field = mites::kill_of_dose(g.dose_g, mites::Reach::Field, g.colony.constants);
    double ratio = mites::modelled_ratio(g, field);
    if (against_untreated) {
      mites::TaughtCourse untreated = g;
      untreated.treatment.days.clear();
      ratio /= mites::modelled_ratio(untreated, 0);
    }
    double mites = 0.5;  // so that a group without any still has its say
    for (const mites::WashPair& p : g.pairs) mites += static_cast<double>(p.before.mites);
    before += mites, after += mites * ratio;
  }
  return before > 0 ? 100 * (1 - after / before) : 0;
}

std::optional<KitId> main_vaporizer(const Farm& farm, const std::vector<CoursePair>& treated,
                                    Date from, Date to) {
  std::map<KitId, int> times;
  for (const CoursePair& p : treated)
    for (const Vaporized& v : farm.vaporized.of(p.colony))
      if (v.on >= from && v.on <= to && !v.vaporizer.empty()) ++times[v.vaporizer];
  const auto most = std::max_element(
      times.begin(), times.end(), [](const auto& a, const auto& b) { return a.second < b.second; });
  return most == times.end() ? std::nullopt : std::optional(most->first);
}

}  // namespace engine
