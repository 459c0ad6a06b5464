#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "engine/farm/queries.h"
#include "engine/learn/battery.h"
#include "engine/learn/dwell.h"
#include "engine/words/lookup.h"

namespace engine {
namespace {

double heating_of(const Farm& farm, const Walk& walk, ColonyId colony) {
  return heating_for(dose_loaded(walk.rules, prompted_dose(farm, walk.rules, colony)));
}

const Stop* first_to_do(const Walk& walk) {
  const auto at = std::find_if(walk.stops.begin(), walk.stops.end(),
                               [](const Stop& s) { return s.phase == Phase::ToDo; });
  return at == walk.stops.end() ? nullptr : &*at;
}

// All that is to do, shared among the vaporizers; not less than the next colony.
double share_of_yard(const Farm& farm, const Walk& walk, double next) {
  double sum = 0;
  for (const Stop& s : walk.stops)
    if (s.phase == Phase::ToDo) sum += heating_of(farm, walk, s.colony);
  return std::max(next,
                  sum / static_cast<double>(std::max<std::size_t>(1, walk.vaporizers.size())));
}

bool in_a_vaporizer(const Farm& farm, KitId battery) {
  return std::any_of(farm.kit.begin(), farm.kit.end(),
                     [&](const auto& k) { return k.second.battery == battery; });
}

// Charged, at hand, and likelier to last than the others (and than the one that is in).
std::optional<KitId> spare_for(const Farm& farm, const BatteryModel& model, double heating,
                               double cold, double better_than) {
  std::optional<KitId> best;
  for (const auto& [id, item] : farm.kit) {
    if (item.sort != KitSort::Battery || item.retired || item.needs_charge) continue;
    if (in_a_vaporizer(farm, id)) continue;
    const double p = lasts(model, id, heating, cold);
    if (p > better_than) best = id, better_than = p;
  }
  return best;
}

// On this walk the vaporizer was said not to recover, on the battery that is in it.
bool did_not_recover(const Walk& walk, KitId vaporizer, KitId battery) {
  for (const Stop& s : walk.stops) {
    if (s.treatments.empty()) continue;
    const Treatment& t = s.treatments.back();
    if (t.vaporizer != vaporizer || t.battery != battery) continue;
    for (const StopMishap& m : s.mishaps)
      if (m.what == MishapKind::NotRecovering && m.entry > t.entry) return true;
  }
  return false;
}

std::string capital(std::string s) {
  if (!s.empty() && s[0] >= 'a' && s[0] <= 'z') s[0] = static_cast<char>(s[0] - 'a' + 'A');
  return s;
}

// Whole per cents; nothing is ever sure.
std::string percent(double p) {
  return fmt::format("{} %", std::clamp(static_cast<int>(std::floor(p * 100)), 1, 99));
}

std::string line_of(const Farm& farm, const BatteryAdvice& a, bool failed, bool standing) {
  const std::string in = kit_called(farm, *a.battery);
  const std::string next = colony_called(farm, *a.next);
  const std::string spare = a.spare ? capital(kit_called(farm, *a.spare)) + " is charged." : "";
  if (a.change_now) {
    const std::string why = failed ? std::string("the vaporizer did not recover")
                                   : percent(a.through_next) + " to last through it (model)";
    return fmt::format("Change {} before {}: {}. {}", in, next, why, spare);
  }
  const std::string now =
      fmt::format("{}{}: {} to last through {}, {} through the yard (model).",
                  standing ? "After this dwell, " : "", standing ? in : capital(in),
                  percent(a.through_next), next, percent(a.through_yard));
  if (a.through_next < kCertain && !a.spare) return now + " No charged one is there.";
  return a.through_yard < kCertain && a.spare ? now + " " + spare : now;
}

}  // namespace

BatteryAdvice battery_advice(const Farm& farm, const BatteryModel& model, const Walk& walk,
                             KitId vaporizer, std::optional<ColonyId> next) {
  BatteryAdvice a{.vaporizer = vaporizer};
  const auto item = farm.kit.find(vaporizer);
  if (item == farm.kit.end() || !item->second.battery) return a;
  a.battery = item->second.battery;
  const Stop* stop = next ? find_stop(walk, *next) : first_to_do(walk);
  if (stop == nullptr) return a;
  a.next = stop->colony;
  const double heating = heating_of(farm, walk, stop->colony);
  const double yard = share_of_yard(farm, walk, heating);
  const double cold = coldness(walk.conditions);
  a.through_next = lasts(model, a.battery, heating, cold);
  a.through_yard = lasts(model, a.battery, yard, cold);
  const bool failed = did_not_recover(walk, vaporizer, *a.battery);
  a.spare = spare_for(farm, model, yard, cold, failed ? 0 : a.through_yard);
  const bool standing = stands_in(walk, vaporizer) != nullptr;
  a.change_now = !standing && a.spare && (failed || a.through_next < kCertain);
  a.line = line_of(farm, a, failed, standing);
  return a;
}

}  // namespace engine
