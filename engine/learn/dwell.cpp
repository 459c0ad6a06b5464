#include "engine/learn/dwell.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <limits>

#include "engine/core/student.h"
#include "engine/language/tr.h"

namespace engine {
namespace {

// How wide the prior is, in seconds. The common practice is a rule of thumb for all makes, so the
// base may be off by a third and the seconds a gram as well; ten degrees of air change the heating
// of a pan at 230 °C by a few per cent; two vaporizers of one keeper differ less than two makes.
// The lifting itself scatters by a quarter of a minute (somebody walks up and lifts it), known no
// better than from six dwells (kPriorA is half of that). Own choices, no published source.
constexpr double kBaseWidth = 20, kPerGramWidth = 5, kWarmthWidth = 5, kVaporizerWidth = 10;
constexpr double kNoise = 15, kPriorA = 3;

// A pan slows by up to some quarter of a second a setting until it is cleaned (residue on it takes
// heat up); of ten settings. How much a keeper's vaporizers differ is chosen among these widths. A
// dwell counts 0.95 of the one after it by the same vaporizer, so the last twenty or so decide. The
// curve weighs as much as thirty dwells against those that were seen. Own choices; the simulations
// of tests/reference/dwell_coverage_test.cpp stand behind them.
constexpr double kSlowingWidth = 2.5;
constexpr double kVaporizerWidths[] = {2.5, 5, kVaporizerWidth, 20, 40};
constexpr double kForget = 0.95, kCurveWeight = 30;
constexpr double kFarOff = 3;           // in the scale of the forecast
constexpr std::size_t kFollowed = 400;  // the last dwells: older ones weigh nothing

// ---- the columns: base, grams, warmth; two for each vaporizer, its own seconds and what its pan
// slows in ten settings; one for a vaporizer never seen ----

constexpr std::size_t kFixed = 3;

std::optional<std::size_t> place_of(const std::vector<KitId>& vaporizers, KitId v) {
  const auto at = std::lower_bound(vaporizers.begin(), vaporizers.end(), v);
  if (at == vaporizers.end() || *at != v) return std::nullopt;
  return static_cast<std::size_t>(at - vaporizers.begin());
}

std::size_t columns_of(std::size_t vaporizers) { return kFixed + 2 * vaporizers + 1; }

std::vector<double> row(const std::vector<KitId>& vaporizers, const DwellSeen& d) {
  std::vector<double> x(columns_of(vaporizers.size()), 0.0);
  x[0] = 1, x[1] = d.grams, x[2] = d.warmth;
  if (const auto place = place_of(vaporizers, d.vaporizer))
    x[kFixed + 2 * *place] = 1, x[kFixed + 2 * *place + 1] = d.since_cleaned / 10;
  else
    x.back() = 1;
  return x;
}

LinearSums prior(std::size_t vaporizers, double vaporizer_width) {
  const auto precision = [](double width) { return kNoise * kNoise / (width * width); };
  std::vector<double> mean = {kDwellBase, kDwellPerGram, 0};
  std::vector<double> diagonal = {precision(kBaseWidth), precision(kPerGramWidth),
                                  precision(kWarmthWidth)};
  for (std::size_t i = 0; i < vaporizers; ++i) {
    diagonal.push_back(precision(vaporizer_width));
    diagonal.push_back(precision(kSlowingWidth));
  }
  diagonal.push_back(precision(vaporizer_width));
  mean.resize(diagonal.size(), 0.0);
  return {mean, diagonal, kPriorA, kPriorA * kNoise * kNoise};
}

// ---- forgetting, and how well the dwells were foretold ----

// Goes through the dwells from the oldest on, each foretold from those before it.
class Following {
 public:
  Following(const std::vector<KitId>& vaporizers, double width)
      : vaporizers_(vaporizers),
        prior_(prior(vaporizers.size(), width)),
        of_(vaporizers.size(), empty()),
        fit_(engine::fit(prior_)) {}

  void see(const DwellSeen& d) {
    const std::vector<double> x = row(vaporizers_, d);
    const StudentT foretold = predict(fit_, x);
    const double off = (d.seconds - foretold.centre) / foretold.scale;
    off_.push_back(off);
    evidence_ += log_density(foretold.df, off) - std::log(foretold.scale);
    // One that was forgotten for minutes moves the others no further than a late one.
    const double believed = foretold.centre + std::clamp(off, -kFarOff, kFarOff) * foretold.scale;
    LinearSums& own = of_[*place_of(vaporizers_, d.vaporizer)];
    own.scale(kForget);
    own.add(x, believed);
    LinearSums all = prior_;
    for (const LinearSums& sums : of_) all.add(sums);
    fit_ = engine::fit(all);
  }

  [[nodiscard]] double evidence() const { return evidence_; }
  [[nodiscard]] const LinearFit& fit() const { return fit_; }
  [[nodiscard]] std::vector<double> off() const {
    std::vector<double> rising = off_;
    std::sort(rising.begin(), rising.end());
    return rising;
  }

 private:
  [[nodiscard]] LinearSums empty() const {
    const std::vector<double> zero(columns_of(vaporizers_.size()), 0.0);
    return {zero, zero, 0, 0};
  }
  static double log_density(double df, double t) {
    return std::lgamma((df + 1) / 2) - std::lgamma(df / 2) - std::log(df) / 2 -
           (df + 1) / 2 * std::log1p(t * t / df);
  }

  const std::vector<KitId>& vaporizers_;
  LinearSums prior_;
  std::vector<LinearSums> of_;  // the dwells of each vaporizer, the older the less
  LinearFit fit_;
  std::vector<double> off_;
  double evidence_ = 0;
};

// A quantile of what dwells lie off: of the model's own curve while there are few, of the dwells
// themselves once there are many. `off` rising.
double quantile_off(const std::vector<double>& off, double df, double q) {
  const double curve = student_t_quantile(df, q);
  if (off.empty()) return curve;
  const auto n = static_cast<double>(off.size());
  const double at = q * (n + 1) - 1;
  const auto low = static_cast<std::size_t>(std::clamp(std::floor(at), 0.0, n - 1));
  const std::size_t high = std::min(low + 1, off.size() - 1);
  const double part = std::clamp(at - std::floor(at), 0.0, 1.0);
  const double seen = off[low] + (off[high] - off[low]) * part;
  const double mixed = (kCurveWeight * curve + n * seen) / (kCurveWeight + n);
  return at > n - 1 ? std::max(curve, mixed) : mixed;  // too few to have seen so rare a one
}

double grams(Mass m) { return static_cast<double>(m.mg) / 1000; }

double warmth(const Conditions& c) { return -coldness(c); }

Seconds seconds_up(double s) { return Seconds{std::llround(std::ceil(std::max(1.0, s)))}; }

std::string clock(Seconds s) { return minutes_seconds(s); }

}  // namespace

DwellModel learn_dwell(const DwellsSeen& seen) {
  DwellModel model;
  for (const DwellSeen& d : seen.counted) model.vaporizers.push_back(d.vaporizer);
  std::sort(model.vaporizers.begin(), model.vaporizers.end());
  model.vaporizers.erase(std::unique(model.vaporizers.begin(), model.vaporizers.end()),
                         model.vaporizers.end());
  model.dwells_of.resize(model.vaporizers.size());
  for (const DwellSeen& d : seen.counted)
    ++model.dwells_of[*place_of(model.vaporizers, d.vaporizer)];
  const std::size_t first = seen.counted.size() - std::min(seen.counted.size(), kFollowed);
  double best = -std::numeric_limits<double>::infinity();
  for (const double width : kVaporizerWidths) {
    Following follow(model.vaporizers, width);
    for (std::size_t i = first; i < seen.counted.size(); ++i) follow.see(seen.counted[i]);
    const double away = std::log(width / kVaporizerWidth);
    if (const double weight = follow.evidence() - away * away / 2; weight > best)
      best = weight, model.fit = follow.fit(), model.off = follow.off();
  }
  model.since_cleaned = seen.since_cleaned;
  model.dwells = static_cast<int>(seen.counted.size());
  model.left_out = seen.left_out;
  return model;
}

DwellModel learn_dwell(const Farm& farm) { return learn_dwell(dwells_seen(farm)); }

DwellForecast forecast_dwell(const DwellModel& model, const Walk& walk, Mass dose, KitId v) {
  const auto cleaned = model.since_cleaned.find(v);
  const DwellSeen next{grams(dose_loaded(walk.rules, dose)), warmth(walk.conditions), v, 0,
                       cleaned == model.since_cleaned.end() ? 0 : cleaned->second};
  const StudentT t = predict(model.fit, row(model.vaporizers, next));
  const auto point = [&](double q) {
    return seconds_up(t.centre + t.scale * quantile_off(model.off, t.df, q));
  };
  const auto place = place_of(model.vaporizers, v);
  return {Seconds{std::llround(std::max(1.0, t.centre))}, point(0.9), point(0.99), model.dwells,
          place ? model.dwells_of[*place] : 0};
}

DwellStage dwell_stage(const DwellForecast& f, const Timer& dwell) {
  const auto beyond = [&](Seconds point) {
    return dwell.elapsed > std::max<Ms>(point, dwell.goal + (point - f.median));
  };
  if (beyond(f.ninety_nine)) return DwellStage::NotRecovering;
  if (beyond(f.nine_in_ten)) return DwellStage::Long;
  return dwell.elapsed < f.median ? DwellStage::Early : DwellStage::Usual;
}

std::string words(const DwellForecast& f) {
  return tr("usually {}, nine in ten by {}", clock(f.median), clock(f.nine_in_ten));
}

std::string learned_from(const DwellForecast& f) {
  if (f.dwells == 0) return tr("common practice; no dwell of yours yet");
  return fmt::format("from {} dwell{} of yours, {} with this vaporizer", f.dwells,
                     f.dwells == 1 ? "" : "s", f.dwells_of_vaporizer);
}

std::string not_recovering_words(const DwellForecast& f) {
  return tr("Does it recover? 99 of 100 dwells end by {}. Battery low? Nozzle blocked? Dose stuck?",
            clock(f.ninety_nine));
}

const char* not_recovering_caution() {
  return to_translate(
      "It is hot and may still give vapor: respirator on, stand upwind, lift it by its handle "
      "and look only when it has cooled.");
}

}  // namespace engine
