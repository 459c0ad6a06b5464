// The trip of an evening: time for 2 to 12 yards, beside trying out every order of every choice of
// them in the same run (to 9 yards; beyond that nobody waits for it).
#include <fmt/format.h>

#include <chrono>
#include <cmath>

#include "engine/trip/trip.h"

namespace {

using engine::TripAsk;
using Clock = std::chrono::steady_clock;

double spread(std::size_t i, double step) { return std::fmod(static_cast<double>(i) * step, 1.0); }

// Yards spread over the plane without a pattern, walks of 10 to 25 minutes,
// windows in which all of them fit: no set of yards falls out early.
TripAsk evening_of(std::size_t yards) {
  TripAsk ask;
  for (std::size_t i = 0; i < yards; ++i)
    ask.stops.push_back({static_cast<int>(i % 4), 10 + 15 * spread(i + 1, 0.5698402910),
                         10 * spread(i + 1, 0.7548776662), 600 + 20 * spread(i + 1, 0.6180339887)});
  const auto x = [&](std::size_t i) { return i == yards ? 0.5 : spread(i + 1, 0.6180339887); };
  const auto y = [&](std::size_t i) { return i == yards ? 0.5 : spread(i + 1, 0.7548776662); };
  for (std::size_t a = 0; a <= yards; ++a) {
    ask.drive_min.emplace_back();
    for (std::size_t b = 0; b <= yards; ++b)
      ask.drive_min.back().push_back(30 * std::hypot(x(a) - x(b), y(a) - y(b)));
  }
  return ask;
}

// Every order of every choice that keeps to the windows; how many there are.
double try_all(const TripAsk& ask, std::size_t done, std::size_t at, double end) {
  double orders = 1;
  for (std::size_t s = 0; s < ask.stops.size(); ++s) {
    if (done >> s & 1) continue;
    const engine::TripStop& stop = ask.stops[s];
    const double arrive = done == 0 ? stop.from_min : end + ask.drive_min[at][s];
    const double until = std::max(arrive, stop.from_min) + stop.walk_min;
    if (until <= stop.until_min) orders += try_all(ask, done | std::size_t{1} << s, s, until);
  }
  return orders;
}

template <class Work>
double milliseconds(int times, Work work) {
  const auto from = Clock::now();
  for (int i = 0; i < times; ++i) work();
  return std::chrono::duration<double, std::milli>(Clock::now() - from).count() / times;
}

}  // namespace

int main() {
  fmt::print("{:>5} {:>10} {:>16} {:>12} {:>8}\n", "yards", "trip ms", "every order ms", "orders",
             "visited");
  for (std::size_t n = 2; n <= engine::kTripExact; ++n) {
    const TripAsk ask = evening_of(n);
    std::size_t visited = 0;
    const double trip = milliseconds(20, [&] { visited = engine::plan_trip(ask).visits.size(); });
    fmt::print("{:>5} {:>10.3f} ", n, trip);
    if (n > 9) {
      fmt::print("{:>16} {:>12} {:>8}\n", "-", "-", visited);
      continue;
    }
    double orders = 0;
    const double all = milliseconds(1, [&] { orders = try_all(ask, 0, 0, 0); });
    fmt::print("{:>16.3f} {:>12.0f} {:>8}\n", all, orders, visited);
  }
}
