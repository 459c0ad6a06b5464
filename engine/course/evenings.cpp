#include "engine/course/evenings.h"

#include <algorithm>
#include <cmath>
#include <limits>
#include <memory>
#include <numbers>

#include "engine/farm/views.h"

namespace engine {
namespace {

constexpr std::size_t kExact = 10;
constexpr double kNever = std::numeric_limits<double>::infinity();

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

Drives drives_between(const Farm& farm, std::span<const YardId> yards, const EveningPace& pace) {
  std::vector<YardId> stops(yards.begin(), yards.end());
  stops.push_back({});
  Drives d;
  d.min.assign(stops.size(), std::vector<double>(stops.size(), 0));
  for (std::size_t i = 0; i < stops.size(); ++i)
    for (std::size_t j = 0; j < stops.size(); ++j)
      if (i != j) d.min[i][j] = drive_minutes(farm, stops[i], stops[j], pace);
  return d;
}

// Shortest round by dynamic programming over the sets of yards visited (Bellman 1962, Held and
// Karp 1962).
double shortest_round(const Drives& d) {
  const std::size_t n = d.yards();
  std::vector<std::vector<double>> best(std::size_t{1} << n, std::vector<double>(n, kNever));
  for (std::size_t i = 0; i < n; ++i) best[std::size_t{1} << i][i] = d.min[n][i];
  for (std::size_t set = 1; set < best.size(); ++set)
    for (std::size_t i = 0; i < n; ++i) {
      if (best[set][i] == kNever) continue;
      for (std::size_t j = 0; j < n; ++j) {
        if (set >> j & 1) continue;
        double& to = best[set | std::size_t{1} << j][j];
        to = std::min(to, best[set][i] + d.min[i][j]);
      }
    }
  double home = kNever;
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

double evening_minutes(const Farm& farm, std::span<const YardId> yards, const EveningPace& pace) {
  if (yards.empty()) return 0;
  const Drives d = drives_between(farm, yards, pace);
  double sum = yards.size() <= kExact ? shortest_round(d) : nearest_round(d);
  for (const YardId yard : yards)
    sum +=
        pace.gate_min + pace.per_colony_min * static_cast<double>(colonies_of(farm, yard).size());
  return sum;
}

EveningHolds holds_by_minutes(const Farm& farm, const EveningPace& pace) {
  auto known = std::make_shared<std::map<std::vector<YardId>, bool>>();
  return [&farm, pace, known](Date, std::span<const YardId> yards) {
    if (yards.size() <= 1) return true;
    std::vector<YardId> key(yards.begin(), yards.end());
    const auto at = known->find(key);
    if (at != known->end()) return at->second;
    const bool fits = evening_minutes(farm, yards, pace) <= pace.room_min;
    known->emplace(std::move(key), fits);
    return fits;
  };
}

}  // namespace engine
