#include "engine/learn/dwell.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>
#include <map>

#include "engine/learn/recent.h"

namespace engine {
namespace {

// How wide the prior is, in seconds. The common practice is a rule of thumb for all makes, so the
// base may be off by a third and the seconds a gram as well; ten degrees of air change the heating
// of a pan at 230 °C by a few per cent; two vaporizers of one keeper differ less than two makes.
// The lifting itself scatters by a quarter of a minute (somebody walks up and lifts it), known no
// better than from six dwells (kPriorA is half of that). Own choices, no published source.
constexpr double kBaseWidth = 20, kPerGramWidth = 5, kWarmthWidth = 5, kVaporizerWidth = 10;
constexpr double kNoise = 15, kPriorA = 3;

constexpr Ms kNoHeatBelow = Seconds{15}, kForgottenAbove = Seconds{600};

// ---- which dwells count ----

bool not_before(const Stamp& s, const Stamp& from) {
  return s.boot == from.boot && !s.boot.empty() ? s.since_boot >= from.since_boot : s.at >= from.at;
}

bool within(const Stamp& s, const Stamp& from, const Stamp& to) {
  return not_before(s, from) && not_before(to, s);
}

using Pauses = std::map<WalkId, std::vector<Stamp>>;

Pauses pauses_of(const Farm& farm) {
  Pauses pauses;
  const auto take = [&](const Entry& e) {
    if (e.counts()) pauses[std::get<WalkPaused>(e.event.body).walk].push_back(e.event.stamp);
  };
  farm.log.each<WalkPaused>(take, first_learned(farm));
  return pauses;
}

bool fails_the_vaporizer(MishapKind what) {
  return what == MishapKind::Dropped || what == MishapKind::NotRecovering;
}

// Something happened that made the keeper lift at another time than the heat would have.
bool disturbed(const Walk& w, const Stop& stop, const Treatment& t, const Stamp* next_set) {
  const auto during = [&](const StopMishap& m) { return within(m.at, t.set_at, *t.lifted_at); };
  const auto noted_after = [&](const StopMishap& m) {
    return fails_the_vaporizer(m.what) && not_before(m.at, t.set_at) &&
           (next_set == nullptr || !not_before(m.at, *next_set));
  };
  return std::any_of(stop.mishaps.begin(), stop.mishaps.end(),
                     [&](const StopMishap& m) { return during(m) || noted_after(m); }) ||
         std::any_of(w.mishaps.begin(), w.mishaps.end(), during);
}

bool paused_in(const std::vector<Stamp>* pauses, const Treatment& t) {
  return pauses != nullptr && std::any_of(pauses->begin(), pauses->end(), [&](const Stamp& s) {
           return within(s, t.set_at, *t.lifted_at);
         });
}

bool sound_length(const Treatment& t) {
  const Elapsed length = *dwell_of(t);
  return !t.lift_inferred && length.sure && length.length >= kNoHeatBelow &&
         length.length <= kForgottenAbove;
}

// At that moment it lay where another treatment's seal was not over.
bool bound(const Walk& w, KitId cloth, const Treatment& own, const Stamp& moment) {
  const auto binds = [&](const Treatment& t) {
    if (&t == &own || t.cloth != cloth || !t.lifted_at) return false;
    const Ms closed = elapsed(*t.lifted_at, moment).length;
    const bool off = t.uncovered_at && elapsed(*t.uncovered_at, moment).length > Ms{0};
    return closed > Ms{0} && closed < w.rules.seal_goal && !off;
  };
  return std::any_of(w.stops.begin(), w.stops.end(), [&](const Stop& s) {
    return std::any_of(s.treatments.begin(), s.treatments.end(), binds);
  });
}

double grams(Mass m) { return static_cast<double>(m.mg) / 1000; }

double warmth(const Conditions& c) {
  return (c.temperature.value_or(kReferenceAir).tenths_c - kReferenceAir.tenths_c) / 100.0;
}

void see(const Walk& w, const std::vector<Stamp>* pauses, DwellsSeen& seen) {
  for (const Stop& stop : w.stops)
    for (std::size_t i = 0; i < stop.treatments.size(); ++i) {
      const Treatment& t = stop.treatments[i];
      if (!t.lifted_at || t.late) continue;
      const bool last = i + 1 == stop.treatments.size();
      const Stamp* next_set = last ? nullptr : &stop.treatments[i + 1].set_at;
      if (!sound_length(t) || disturbed(w, stop, t, next_set) || paused_in(pauses, t) ||
          waits_for_cloth(w, t)) {
        ++seen.left_out;
        continue;
      }
      seen.counted.push_back({grams(dose_loaded(w.rules, t.dose)), warmth(w.conditions),
                              t.vaporizer,
                              static_cast<double>(dwell_of(t)->length.count()) / 1000});
    }
}

// ---- the columns: base, grams, warmth, one for each vaporizer, one for a vaporizer never seen
// ----

constexpr std::size_t kFixed = 3;

std::size_t column_of(const std::vector<KitId>& vaporizers, KitId v) {
  const auto at = std::lower_bound(vaporizers.begin(), vaporizers.end(), v);
  const bool known = at != vaporizers.end() && *at == v;
  return kFixed + (known ? static_cast<std::size_t>(at - vaporizers.begin()) : vaporizers.size());
}

std::vector<double> row(const std::vector<KitId>& vaporizers, double g, double warm, KitId v) {
  std::vector<double> x(kFixed + vaporizers.size() + 1, 0.0);
  x[0] = 1, x[1] = g, x[2] = warm;
  x[column_of(vaporizers, v)] = 1;
  return x;
}

LinearSums prior(std::size_t vaporizers) {
  const auto precision = [](double width) { return kNoise * kNoise / (width * width); };
  std::vector<double> mean = {kDwellBase, kDwellPerGram, 0};
  std::vector<double> diagonal = {precision(kBaseWidth), precision(kPerGramWidth),
                                  precision(kWarmthWidth)};
  mean.resize(kFixed + vaporizers + 1, 0.0);
  diagonal.resize(mean.size(), precision(kVaporizerWidth));
  return {mean, diagonal, kPriorA, kPriorA * kNoise * kNoise};
}

Seconds seconds_up(double s) { return Seconds{std::llround(std::ceil(std::max(1.0, s)))}; }

std::string clock(Seconds s) { return minutes_seconds(s); }

}  // namespace

Mass dose_loaded(const LabelRules& rules, Mass dose) {
  return rules.basis == Basis::Anhydrous ? dihydrate(rules, dose).value_or(dose) : dose;
}

bool waits_for_cloth(const Walk& w, const Treatment& t) {
  const Stamp in_time = after(t.set_at, w.rules.dwell_goal + kClothInTime);
  return !w.cloths.empty() && std::all_of(w.cloths.begin(), w.cloths.end(),
                                          [&](KitId cloth) { return bound(w, cloth, t, in_time); });
}

DwellsSeen dwells_seen(const Farm& farm) {
  const Pauses pauses = pauses_of(farm);
  DwellsSeen seen;
  if (farm.log.empty()) return seen;
  const Utc since = farm.log.copy(first_learned(farm)).event.stamp.at;
  for (const auto& [id, walk] : farm.walks) {
    if (first_learned(farm) > 0 && walk.opened.at < since) continue;
    const auto at = pauses.find(id);
    see(walk, at == pauses.end() ? nullptr : &at->second, seen);
  }
  return seen;
}

DwellModel learn_dwell(const DwellsSeen& seen) {
  DwellModel model;
  for (const DwellSeen& d : seen.counted) model.vaporizers.push_back(d.vaporizer);
  std::sort(model.vaporizers.begin(), model.vaporizers.end());
  model.vaporizers.erase(std::unique(model.vaporizers.begin(), model.vaporizers.end()),
                         model.vaporizers.end());
  model.dwells_of.resize(model.vaporizers.size());
  LinearSums sums = prior(model.vaporizers.size());
  for (const DwellSeen& d : seen.counted) {
    sums.add(row(model.vaporizers, d.grams, d.warmth, d.vaporizer), d.seconds);
    ++model.dwells_of[column_of(model.vaporizers, d.vaporizer) - kFixed];
  }
  model.fit = fit(sums);
  model.dwells = static_cast<int>(seen.counted.size());
  model.left_out = seen.left_out;
  return model;
}

DwellModel learn_dwell(const Farm& farm) { return learn_dwell(dwells_seen(farm)); }

DwellForecast forecast_dwell(const DwellModel& model, const Walk& walk, Mass dose, KitId v) {
  const StudentT t = predict(model.fit, row(model.vaporizers, grams(dose_loaded(walk.rules, dose)),
                                            warmth(walk.conditions), v));
  const std::size_t column = column_of(model.vaporizers, v) - kFixed;
  return {Seconds{std::llround(std::max(1.0, t.centre))}, seconds_up(t.quantile(0.9)),
          seconds_up(t.quantile(0.99)), model.dwells,
          column < model.dwells_of.size() ? model.dwells_of[column] : 0};
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
  return fmt::format("usually {}, nine in ten by {}", clock(f.median), clock(f.nine_in_ten));
}

std::string learned_from(const DwellForecast& f) {
  if (f.dwells == 0) return "common practice; no dwell of yours yet";
  return fmt::format("from {} dwell{} of yours, {} with this vaporizer", f.dwells,
                     f.dwells == 1 ? "" : "s", f.dwells_of_vaporizer);
}

std::string not_recovering_words(const DwellForecast& f) {
  return fmt::format(
      "Does it recover? 99 of 100 dwells end by {}. Battery low? Nozzle blocked? Dose stuck?",
      clock(f.ninety_nine));
}

const char* not_recovering_caution() {
  return "It is hot and may still give vapor: respirator on, stand upwind, lift it by its handle "
         "and look only when it has cooled.";
}

}  // namespace engine
