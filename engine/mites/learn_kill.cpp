// The runs at all points of the grid share their bees, so the bees are carried forward once and
// only the mites of each point are stepped through the hazards of those days.
#include "engine/mites/learn_kill.h"

#include <algorithm>
#include <cassert>
#include <cmath>
#include <limits>

#include "engine/mites/ages.h"
#include "engine/mites/day_step.h"

namespace engine::mites {
namespace {

constexpr double kStep = 0.05, kFirst = -4;
constexpr double kNinety = 1.2815515655446004;  // standard normal, 90 % point

double logit(double p) { return std::log(p / (1 - p)); }
double logistic(double x) { return 1 / (1 + std::exp(-x)); }

// What the days of a course are to any mite.
struct CourseDays {
  struct Day {
    Hazards hazards;
    double immigrants = 0;
    bool round = false;
  };
  std::vector<Day> days;
  MitePool start;
  double adults_before = 0, adults_after = 0;
};

CourseDays days_of(const TaughtCourse& c) {
  assert(c.pre_day >= 0 && c.pre_day < c.post_day);
  const std::vector<int> rounds = rounds_within(c.treatment.days, c.post_day);
  ColonyState state = start_of(c.colony, c.load);
  CourseDays out;
  out.start = state.mites;
  for (int day = 0; day < c.post_day; ++day) {
    if (day == c.pre_day) out.adults_before = state.adults;
    const bool round = std::binary_search(rounds.begin(), rounds.end(), day);
    if (round) state.residual_days = c.colony.constants.residual_days;
    const Hazards hazards = hazards_on(c.colony, state, day);
    out.days.push_back({hazards, c.colony.immigration.at(day), round});
    step(c.colony, state, hazards, day);
  }
  out.adults_after = state.adults;
  return out;
}

double ratio_of(const TaughtCourse& c, const CourseDays& days, double kill) {
  const Constants& k = c.colony.constants;
  const Opening opening = opening_of(k);
  MitePool pool = days.start;
  double before = 0;
  for (std::size_t day = 0; day < days.days.size(); ++day) {
    if (static_cast<int>(day) == c.pre_day) before = pool.on_bees;
    const CourseDays::Day& d = days.days[day];
    if (d.round) pool.on_bees -= pool.on_bees * kill * (1 - c.treatment.away);
    const double arriving =
        (1 - k.emergence_loss) * emerging_of(open_cells(pool, opening), k) + d.immigrants;
    expose(pool, arriving, d.hazards);
  }
  if (!(before > 0 && days.adults_before > 0 && days.adults_after > 0))
    return std::numeric_limits<double>::quiet_NaN();
  return pool.on_bees / days.adults_after / (before / days.adults_before);
}

// The chance that a mite of the pair is one of those after.
double share_after(const WashPair& p, double ratio) {
  const auto n1 = static_cast<double>(p.before.bees), n2 = static_cast<double>(p.after.bees);
  return ratio * n2 / (n1 + ratio * n2);
}

double both(const WashPair& p) { return static_cast<double>(p.before.mites + p.after.mites); }

// The ratio at which the mites after are as many as expected.
double common_ratio(std::span<const WashPair> pairs) {
  double low = std::log(1e-6), high = std::log(1e6);
  for (int i = 0; i < 200; ++i) {
    const double middle = (low + high) / 2, ratio = std::exp(middle);
    double excess = 0;
    for (const WashPair& p : pairs)
      excess += both(p) * share_after(p, ratio) - static_cast<double>(p.after.mites);
    (excess < 0 ? low : high) = middle;
  }
  return std::exp((low + high) / 2);
}

// No mite of that sort makes no difference, however unlikely one would be.
double of_mites(std::int64_t mites, double log_chance) {
  return mites == 0 ? 0 : static_cast<double>(mites) * log_chance;
}

}  // namespace

double learn_point(std::size_t i) { return kFirst + kStep * static_cast<double>(i); }

bool teaches_at(double dose_g, const Constants& constants) {
  const auto inside = [&](Reach reach) {
    const double kill = kill_of_dose(dose_g, reach, constants);
    return kill > 0 && kill < 1;
  };
  return inside(Reach::Field) && inside(Reach::Exposed);
}

double kill_at(double z, double dose_g, const Constants& constants) {
  assert(teaches_at(dose_g, constants));
  const double a = logit(kill_of_dose(dose_g, Reach::Field, constants));
  const double b = logit(kill_of_dose(dose_g, Reach::Exposed, constants));
  return logistic((a + b) / 2 + (b - a) / (2 * kNinety) * z);
}

double modelled_ratio(const TaughtCourse& course, double kill) {
  return ratio_of(course, days_of(course), kill);
}

LearnGrid modelled_ratios(const TaughtCourse& course) {
  const CourseDays days = days_of(course);
  LearnGrid ratios{};
  for (std::size_t i = 0; i < kLearnPoints; ++i)
    ratios[i] =
        ratio_of(course, days, kill_at(learn_point(i), course.dose_g, course.colony.constants));
  return ratios;
}

PairSpread pair_spread(std::span<const WashPair> pairs) {
  std::int64_t before = 0, after = 0;
  for (const WashPair& p : pairs) before += p.before.mites, after += p.after.mites;
  if (before == 0 || after == 0) return {};
  const double ratio = common_ratio(pairs);
  PairSpread out{0, -1};
  for (const WashPair& p : pairs) {
    if (both(p) == 0) continue;
    const double share = share_after(p, ratio);
    const double off = static_cast<double>(p.after.mites) - both(p) * share;
    out.x2 += off * off / (both(p) * share * (1 - share));
    ++out.df;
  }
  return out;
}

double overdispersion(const PairSpread& s) {
  return std::max(1.0, (kSpreadWeight * kSpreadPrior + s.x2) / (kSpreadWeight + s.df));
}

LearnGrid log_likelihood(const LearnGrid& ratios, std::span<const WashPair> pairs) {
  LearnGrid out{};
  for (std::size_t i = 0; i < kLearnPoints; ++i) {
    if (!std::isfinite(ratios[i])) continue;
    for (const WashPair& p : pairs) {
      const double share = share_after(p, ratios[i]);
      out[i] +=
          of_mites(p.after.mites, std::log(share)) + of_mites(p.before.mites, std::log1p(-share));
    }
  }
  return out;
}

Lesson lesson_of(const TaughtCourse& course) { return lesson_of(std::span(&course, 1)); }

Lesson lesson_of(std::span<const TaughtCourse> groups) {
  Lesson lesson;
  std::vector<WashPair> all;
  for (const TaughtCourse& g : groups) {
    all.insert(all.end(), g.pairs.begin(), g.pairs.end());
    const LearnGrid one = log_likelihood(modelled_ratios(g), g.pairs);
    for (std::size_t i = 0; i < kLearnPoints; ++i) lesson.log_likelihood[i] += one[i];
  }
  lesson.phi = overdispersion(pair_spread(all));
  for (double& l : lesson.log_likelihood) l /= lesson.phi;
  return lesson;
}

LearnedZ::LearnedZ(const LearnGrid& log_likelihood) {
  LearnGrid weight{};
  for (std::size_t i = 0; i < kLearnPoints; ++i)
    weight[i] = log_likelihood[i] - learn_point(i) * learn_point(i) / 2;
  const double top = *std::max_element(weight.begin(), weight.end());
  double sum = 0;
  for (double& w : weight) sum += w = std::exp(w - top);
  double below = 0;
  for (std::size_t i = 0; i < kLearnPoints; ++i) {
    cumulative_[i] = (below + weight[i] / 2) / sum;
    below += weight[i];
  }
}

double LearnedZ::quantile(double q) const {
  assert(q > 0 && q < 1);
  const auto at = std::lower_bound(cumulative_.begin(), cumulative_.end(), q);
  if (at == cumulative_.begin()) return learn_point(0);
  if (at == cumulative_.end()) return learn_point(kLearnPoints - 1);
  const double part = (q - *(at - 1)) / (*at - *(at - 1));
  return learn_point(static_cast<std::size_t>(at - cumulative_.begin()) - 1) + kStep * part;
}

}  // namespace engine::mites
