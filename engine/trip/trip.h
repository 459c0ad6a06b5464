// engine/trip/trip.h -- which yards one evening holds, and in which order to drive to them.
//
// A round from home through yards that each have a window, exact for up to kTripExact yards:
// dynamic programming over the sets visited and the yard visited last, with the earliest end of the
// walk there (Held and Karp 1962; with time windows: Savelsbergh 1985). An early end never spoils
// what follows, so that the earliest is enough. Minutes on one clock whose zero the caller chooses.
#pragma once
#include <array>
#include <cstddef>
#include <vector>

namespace engine {

inline constexpr std::size_t kTripExact = 12;

struct TripStop {
  int days_over = 0;                   // how overdue; negative: still to come
  double walk_min = 0;                 // at the yard, unloading and loading with it
  double from_min = 0, until_min = 0;  // the walk lies within
};

struct TripAsk {
  std::vector<TripStop> stops;
  std::vector<std::vector<double>> drive_min;  // from, to; the index after the last stop is home
};

struct TripVisit {
  std::size_t stop = 0;
  double arrive_min = 0, walk_from_min = 0, walk_until_min = 0;
};

// TooMany: kTripExact others are more overdue. WindowTooShort: the walk alone does not fit.
enum class TripOut { TooMany, WindowTooShort, NoRoom };
constexpr std::array<const char*, 3> enum_names(TripOut) {
  return {"too many", "window too short", "no room"};
}
struct TripLeftOut {
  std::size_t stop = 0;
  TripOut why = TripOut::NoRoom;
};

struct Trip {
  std::vector<TripVisit> visits;
  std::vector<TripLeftOut> left_out;  // most overdue first
  double leave_min = 0;               // home, to be at the first yard when its walk begins
  double home_min = 0;                // back home
  // A choice, never made for the keeper: the best trip with more yards whose most overdue is at
  // most a day less overdue than that of this one. At most one, without a further choice.
  std::vector<Trip> more{};
};

// The yards with the most overdue first: what is compared is the list of days over, longest first;
// where one list begins like the other, the longer wins; then the earliest return. Windows bound
// the walks alone: drives from and to home lie outside.
[[nodiscard]] Trip plan_trip(const TripAsk& ask);

}  // namespace engine
