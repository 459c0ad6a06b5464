#include "engine/calendar/evenings.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <memory>
#include <numbers>

#include "engine/farm/queries.h"
#include "engine/light/home.h"

namespace engine {
namespace {

constexpr std::size_t kExact = 10;
constexpr double kNoWay = std::numeric_limits<double>::infinity();

std::optional<Place> place_of(const Farm& farm, YardId yard) {
  if (yard.empty()) return farm.setup.home;
  const auto at = farm.yards.find(yard);
  return at == farm.yards.end() ? std::nullopt : at->second.place;
}

// Great circle by the haversine formula on a sphere of the mean radius 6371.0088 km (IUGG).
double kilometres(Place a, Place b) {
  const double rad = std::numbers::pi / 180e6;
  const double lat = (b.lat_udeg - a.lat_udeg) * rad, lon = (b.lon_udeg - a.lon_udeg) * rad;
  const double h = std::pow(std::sin(lat / 2), 2) + std::cos(a.lat_udeg * rad) *
                                                        std::cos(b.lat_udeg * rad) *
                                                        std::pow(std::sin(lon / 2), 2);
  return 2 * 6371.0088 * std::asin(std::min(1.0, std::sqrt(h)));
}

struct Drives {
  std::vector<std::vector<double>> min;  // the last index is home
  [[nodiscard]] std::size_t yards() const { return min.size() - 1; }
};

// Shortest round by dynamic programming over the sets of yards visited (Bellman 1962, Held and
// Karp 1962).
double shortest_round(const Drives& d) {
  const std::size_t n = d.yards();
  std::vector<std::vector<double>> best(std::size_t{1} << n, std::vector<double>(n, kNoWay));
  for (std::size_t i = 0; i < n; ++i) best[std::size_t{1} << i][i] = d.min[n][i];
  for (std::size_t set = 1; set < best.size(); ++set)
    for (std::size_t i = 0; i < n; ++i) {
      if (best[set][i] == kNoWay) continue;
      for (std::size_t j = 0; j < n; ++j) {
        if (set >> j & 1) continue;
        double& to = best[set | std::size_t{1} << j][j];
        to = std::min(to, best[set][i] + d.min[i][j]);
      }
    }
  double home = kNoWay;
  for (std::size_t i = 0; i < n; ++i) home = std::min(home, best.back()[i] + d.min[i][n]);
  return home;
}

double nearest_round(const Drives& d) {
  const std::size_t n = d.yards();
  std::vector<bool> seen(n, false);
  std::size_t at = n;
  double sum = 0;
  for (std::size_t step = 0; step < n; ++step) {
    std::size_t next = n;
    for (std::size_t j = 0; j < n; ++j)
      if (!seen[j] && (next == n || d.min[at][j] < d.min[at][next])) next = j;
    seen[next] = true;
    sum += d.min[at][next];
    at = next;
  }
  return sum + d.min[at][n];
}

double round_minutes(const Drives& d) {
  return d.yards() <= kExact ? shortest_round(d) : nearest_round(d);
}

double walks_minutes(const Farm& farm, std::span<const YardId> yards, const EveningPace& pace) {
  double sum = 0;
  for (const YardId yard : yards) sum += walk_minutes(farm, yard, pace);
  return sum;
}

// What was worked out for the farm already.
class MinutesKnown {
 public:
  MinutesKnown(const Farm& farm, const EveningPace& pace) : farm_(farm), pace_(pace) {}

  bool holds(Date on, std::span<const YardId> yards) {
    if (yards.size() <= 1) return true;
    const Both& both = of(yards);
    const auto& window = window_on(on, yards.front());
    return window ? both.work <= *window : both.evening <= pace_.room_min;
  }

 private:
  struct Both {
    double work = 0, evening = 0;
  };

  const Both& of(std::span<const YardId> yards) {
    std::vector<YardId> key(yards.begin(), yards.end());
    const auto at = minutes_.find(key);
    if (at != minutes_.end()) return at->second;
    const Both both{work_minutes(farm_, yards, pace_), evening_minutes(farm_, yards, pace_)};
    return minutes_.emplace(std::move(key), both).first->second;
  }

  // One window serves all yards of an evening: they lie within a drive of each other.
  const std::optional<double>& window_on(Date on, YardId yard) {
    auto at = windows_.find(on);
    if (at == windows_.end()) at = windows_.emplace(on, window_minutes(farm_, yard, on)).first;
    return at->second;
  }

  const Farm& farm_;
  EveningPace pace_;
  std::map<std::vector<YardId>, Both> minutes_;
  std::map<Date, std::optional<double>> windows_;
};

}  // namespace

bool evening_free(const Evenings& evenings, Date on) {
  if (evenings.lost.contains(on)) return false;
  if (const auto at = evenings.changed.find(on); at != evenings.changed.end()) return at->second;
  if (!evenings.weekly) return true;
  const unsigned iso = std::chrono::weekday{days(on)}.iso_encoding();  // Monday 1
  const auto day = static_cast<Weekday>(iso - 1);
  const auto& free = *evenings.weekly;
  return std::find(free.begin(), free.end(), day) != free.end();
}

double drive_minutes(const Farm& farm, YardId from, YardId to, const EveningPace& pace) {
  if (from == to) return 0;
  const auto entered = farm.drive_minutes.find(std::minmax(from, to));
  if (entered != farm.drive_minutes.end()) return entered->second;
  const auto a = place_of(farm, from), b = place_of(farm, to);
  if (!a || !b) return pace.unknown_drive_min;
  return kilometres(*a, *b) * pace.road_factor / pace.road_kmh * 60;
}

std::vector<std::vector<double>> drive_table(const Farm& farm, std::span<const YardId> yards,
                                             const EveningPace& pace) {
  std::vector<YardId> all(yards.begin(), yards.end());
  all.push_back({});
  std::vector<std::vector<double>> table;
  for (const YardId from : all) {
    table.emplace_back();
    for (const YardId to : all) table.back().push_back(drive_minutes(farm, from, to, pace));
  }
  return table;
}

bool drive_known(const Farm& farm, YardId from, YardId to) {
  return from == to || farm.drive_minutes.contains(std::minmax(from, to)) ||
         (place_of(farm, from) && place_of(farm, to));
}

double evening_minutes(const Farm& farm, std::span<const YardId> yards, const EveningPace& pace) {
  if (yards.empty()) return 0;
  return round_minutes({drive_table(farm, yards, pace)}) + walks_minutes(farm, yards, pace);
}

double work_minutes(const Farm& farm, std::span<const YardId> yards, const EveningPace& pace) {
  if (yards.empty()) return 0;
  Drives d{drive_table(farm, yards, pace)};
  for (auto& from : d.min) from.back() = 0;
  std::fill(d.min.back().begin(), d.min.back().end(), 0.0);
  return round_minutes(d) + walks_minutes(farm, yards, pace);
}

double walk_minutes(const Farm& farm, YardId yard, const EveningPace& pace) {
  if (pace.walk_min)
    if (const auto planned = pace.walk_min(yard)) return pace.gate_min + *planned;
  return pace.gate_min +
         pace.per_colony_min * static_cast<double>(colonies_to_treat(farm, yard).size());
}

std::optional<Place> light_place(const Farm& farm, YardId yard) {
  if (const auto own = place_of(farm, yard)) return own;
  if (farm.setup.home) return farm.setup.home;
  for (const auto& [id, other] : farm.yards)
    if (other.place) return other.place;
  return std::nullopt;
}

std::optional<double> window_minutes(const Farm& farm, YardId yard, Date on) {
  const auto place = farm.setup.home ? farm.setup.home : light_place(farm, yard);
  if (!place) return std::nullopt;
  const BeesHome home =
      bees_home_at(HomePart::Evening, *place, on, {}, air_expected(farm, on, HomePart::Evening));
  if (!home.lamp) return std::nullopt;
  return std::chrono::duration<double, std::ratio<60>>(home.lamp->until - home.lamp->from).count();
}

EveningHolds holds_by_minutes(const Farm& farm, const EveningPace& pace) {
  const auto known = std::make_shared<MinutesKnown>(farm, pace);
  return [known](Date on, std::span<const YardId> yards) { return known->holds(on, yards); };
}

}  // namespace engine
