// engine/trip/tonight.h -- the trip of an evening or a dawn through yards of the farm, on a clock.
#pragma once
#include <functional>
#include <optional>
#include <string>
#include <vector>

#include "engine/calendar/evenings.h"
#include "engine/light/home.h"
#include "engine/rounds/due.h"
#include "engine/trip/trip.h"

namespace engine {

struct TripYard {
  YardId yard;
  int days_over = 0;
  std::vector<ColonyId> only{};  // those to come back to; empty: all colonies of the yard
  friend bool operator==(const TripYard&, const TripYard&) = default;
};

// In the order of the yard.
[[nodiscard]] std::vector<const Colony*> colonies_of(const Farm& farm, const TripYard& visit);

// What is due by its days over, then what is to be visited again; not the yard of a walk that is
// under way.
[[nodiscard]] std::vector<TripYard> yards_to_visit(const Farm& farm, const Due& due);

struct TripWish {
  Date on{};
  HomePart part = HomePart::Evening;
  std::optional<std::chrono::minutes> zone;            // local time minus UTC; see bees_home_at
  std::optional<std::chrono::sys_seconds> not_before;  // nobody sets out in the past
  EveningPace pace;
  // Minutes at the yard, unloading and loading with it; not given: walk_minutes.
  std::function<double(YardId)> minutes_of;
};

struct VisitOnClock {
  YardId yard;
  std::chrono::sys_seconds arrive{}, walk_from{}, walk_until{};
};

struct YardLeftOut {
  YardId yard;
  TripOut why = TripOut::NoRoom;
  std::string line;  // "Long Acre: its walk of 190 min is longer than the window of 150 min"
};

struct TripOnClock {
  std::chrono::sys_seconds leave{}, home{};
  std::vector<VisitOnClock> visits;
  std::vector<YardLeftOut> left_out;
  // Another way to spend the evening, to choose: "3 yards instead of 2: Hill, Ford, Mill. The most
  // overdue of them is 4 days over instead of 5." Empty: there is none.
  std::string more;
  bool drives_known = true;  // false: a drive on the way was neither entered nor could be measured
};

// The bees of the yard that evening or dawn, in the air that is expected where somebody said;
// nullopt: no place is known (light_place).
[[nodiscard]] std::optional<BeesHome> home_of_yard(const Farm& farm, YardId yard,
                                                   const TripWish& wish);

// The trip through those of `yards` that fit, each within its own window with a headlamp. nullopt:
// no place is known, or the sun gives none of them a window.
[[nodiscard]] std::optional<TripOnClock> trip_of(const Farm& farm,
                                                 const std::vector<TripYard>& yards,
                                                 const TripWish& wish);

}  // namespace engine
