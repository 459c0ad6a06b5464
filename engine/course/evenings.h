// engine/course/evenings.h -- which evenings the keeper has, and how many yards one of them holds.
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
  double room_min = 150;      // from the bees being home until the keeper wants to be back
  double per_colony_min = 3;  // common practice: dwell, setting and walking of one vaporizer
  double gate_min = 10;       // unloading, respirator, loading
  double unknown_drive_min = 20;
  double road_factor = 1.3;  // road to straight line
  double road_kmh = 50;
};

// Minutes by car: as entered, else by distance at the road factor, else the pace's assumption. The
// empty id is home.
[[nodiscard]] double drive_minutes(const Farm& farm, YardId from, YardId to,
                                   const EveningPace& pace);

// From home through all of the yards and home again, in the best order (exact up to 10 yards,
// beyond that each time to the nearest), with the walks.
[[nodiscard]] double evening_minutes(const Farm& farm, std::span<const YardId> yards,
                                     const EveningPace& pace);

// Holds what fits into the pace's room, and always one yard alone: a large yard is an evening.
// Remembers answers; the farm must outlive it unchanged.
[[nodiscard]] EveningHolds holds_by_minutes(const Farm& farm, const EveningPace& pace = {});

}  // namespace engine
