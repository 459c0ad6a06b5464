// Which dwells of the log count, in the order in which they were, and how many settings each
// vaporizer has had since it was cleaned.
#include <algorithm>
#include <map>
#include <optional>

#include "engine/learn/dwell.h"
#include "engine/learn/recent.h"

namespace engine {
namespace {

constexpr Ms kNoHeatBelow = Seconds{15}, kForgottenAbove = Seconds{600};

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
  return !t.lift_inferred && t.halts == 0 && length.sure && length.length >= kNoHeatBelow &&
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

double in_grams(Mass m) { return static_cast<double>(m.mg) / 1000; }

// A setting of a vaporizer, whether its dwell counts or not.
struct Setting {
  Utc at;
  KitId vaporizer;
  std::optional<DwellSeen> dwell;
};

void see(const Walk& w, const std::vector<Stamp>* pauses, std::vector<Setting>& all,
         int& left_out) {
  for (const Stop& stop : w.stops)
    for (std::size_t i = 0; i < stop.treatments.size(); ++i) {
      const Treatment& t = stop.treatments[i];
      if (t.late) continue;
      all.push_back({t.set_at.at, t.vaporizer, std::nullopt});
      if (!t.lifted_at) continue;
      const bool last = i + 1 == stop.treatments.size();
      const Stamp* next_set = last ? nullptr : &stop.treatments[i + 1].set_at;
      if (!sound_length(t) || disturbed(w, stop, t, next_set) || paused_in(pauses, t) ||
          waits_for_cloth(w, t)) {
        ++left_out;
        continue;
      }
      all.back().dwell = {in_grams(dose_loaded(w.rules, t.dose)), -coldness(w.conditions),
                          t.vaporizer, static_cast<double>(dwell_of(t)->length.count()) / 1000};
    }
}

using Cleanings = std::map<KitId, std::vector<Utc>>;  // rising

Cleanings cleanings_of(const Farm& farm) {
  Cleanings all;
  farm.log.each<VaporizerCleaned>(
      [&](const Entry& e) {
        if (e.counts())
          all[std::get<VaporizerCleaned>(e.event.body).vaporizer].push_back(e.event.stamp.at);
      },
      first_learned(farm));
  for (auto& [vaporizer, times] : all) std::sort(times.begin(), times.end());
  return all;
}

// Counts the settings of each vaporizer from its last cleaning on.
class SinceCleaned {
 public:
  explicit SinceCleaned(const Cleanings& cleanings) : cleanings_(cleanings) {}

  double at(KitId vaporizer, Utc when) {
    const auto known = cleanings_.find(vaporizer);
    if (known != cleanings_.end()) {
      auto& done = done_[vaporizer];
      const auto& times = known->second;
      for (; done < times.size() && times[done] <= when; ++done) settings_[vaporizer] = 0;
    }
    return settings_[vaporizer];
  }
  void set(KitId vaporizer) { ++settings_[vaporizer]; }
  // Once all settings are counted.
  std::map<KitId, double> now() && {
    for (const auto& [vaporizer, times] : cleanings_) at(vaporizer, times.back());
    return std::move(settings_);
  }

 private:
  const Cleanings& cleanings_;
  std::map<KitId, std::size_t> done_;  // cleanings that were passed
  std::map<KitId, double> settings_;
};

}  // namespace

double coldness(const Conditions& c) {
  return (kReferenceAir.tenths_c - c.temperature.value_or(kReferenceAir).tenths_c) / 100.0;
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
  std::vector<Setting> all;
  for (const auto& [id, walk] : farm.walks) {
    if (first_learned(farm) > 0 && walk.opened.at < since) continue;
    const auto at = pauses.find(id);
    see(walk, at == pauses.end() ? nullptr : &at->second, all, seen.left_out);
  }
  std::stable_sort(all.begin(), all.end(),
                   [](const Setting& a, const Setting& b) { return a.at < b.at; });
  const Cleanings cleanings = cleanings_of(farm);
  SinceCleaned since_cleaned(cleanings);
  for (Setting& s : all) {
    const double settings = since_cleaned.at(s.vaporizer, s.at);
    since_cleaned.set(s.vaporizer);
    if (!s.dwell) continue;
    s.dwell->since_cleaned = settings;
    seen.counted.push_back(*s.dwell);
  }
  seen.since_cleaned = std::move(since_cleaned).now();
  return seen;
}

}  // namespace engine
