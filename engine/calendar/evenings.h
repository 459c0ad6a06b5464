// engine/calendar/evenings.h -- which evenings the keeper has, and how many yards one of them
// holds.
#pragma once
#include <functional>
#include <map>
#include <span>
#include <vector>

#include "engine/farm/farm.h"

namespace engine {

// As the keeper said: the exception of that day, else its weekday; every evening when no weekdays
// were ever named. An evening that was lost is not free.
[[nodiscard]] bool evening_free(const Evenings& evenings, Date on);

// Whether one evening can hold visits to all of these yards; asked with rising ids.
using EveningHolds = std::function<bool(Date on, std::span<const YardId> yards)>;

// How long things take when nobody measured them; every number an assumption to be replaced.
struct EveningPace {
  double room_min = 150;      // out and home again, where no place gives the window of a day
  double per_colony_min = 3;  // common practice: dwell, setting and walking of one vaporizer
  double gate_min = 10;       // unloading, respirator, loading
  double unknown_drive_min = 20;
  double road_factor = 1.3;  // road to straight line
  double road_kmh = 50;
  // The walk of a yard as it was planned, without the gate; none: per_colony_min. Left out: never.
  std::function<std::optional<double>(YardId)> walk_min{};
};

// Minutes by car: as entered, else by distance at the road factor, else the pace's assumption. The
// empty id is home.
[[nodiscard]] double drive_minutes(const Farm& farm, YardId from, YardId to,
                                   const EveningPace& pace);

// Between all of them, row by row; the last row and column are home.
[[nodiscard]] std::vector<std::vector<double>> drive_table(const Farm& farm,
                                                           std::span<const YardId> yards,
                                                           const EveningPace& pace);

// Entered, or to be measured on the map.
[[nodiscard]] bool drive_known(const Farm& farm, YardId from, YardId to);

// From home through all of the yards and home again, in the best order (exact up to 10 yards,
// beyond that each time to the nearest), with the walks.
[[nodiscard]] double evening_minutes(const Farm& farm, std::span<const YardId> yards,
                                     const EveningPace& pace);

// At the yard, unloading and loading with it.
[[nodiscard]] double walk_minutes(const Farm& farm, YardId yard, const EveningPace& pace);

// The same from the first yard's gate until the last walk is done, in the order best for that.
[[nodiscard]] double work_minutes(const Farm& farm, std::span<const YardId> yards,
                                  const EveningPace& pace);

// Where an evening's sun is asked for: at the yard, else at home, else at any yard that has a
// place; nullopt: nobody said where the bees stand.
[[nodiscard]] std::optional<Place> light_place(const Farm& farm, YardId yard);

// How long the bees are home that evening and the keeper works, by headlamp too
// (engine/light/home): at home, else at the yard. nullopt: no place is known, or the sun gives no
// evening.
[[nodiscard]] std::optional<double> window_minutes(const Farm& farm, YardId yard, Date on);

// Holds the yards whose work fits into that day's window; where that is not known, those whose
// round from home fits into the pace's room. Always one yard alone: a large yard is an evening.
// Remembers answers; the farm must outlive it unchanged.
[[nodiscard]] EveningHolds holds_by_minutes(const Farm& farm, const EveningPace& pace = {});

}  // namespace engine
