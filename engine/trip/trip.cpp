#include "engine/trip/trip.h"

#include <algorithm>
#include <bit>
#include <cstdint>
#include <limits>
#include <numeric>

namespace engine {
namespace {

constexpr double kNever = std::numeric_limits<double>::infinity();
constexpr std::size_t kNone = SIZE_MAX;
// Sums of minutes that are equal on paper differ by less.
constexpr double kHair = 1e-9;

bool fits_alone(const TripStop& s) { return s.from_min + s.walk_min <= s.until_min + kHair; }

std::vector<std::size_t> by_days_over(const TripAsk& ask) {
  std::vector<std::size_t> order(ask.stops.size());
  std::iota(order.begin(), order.end(), std::size_t{0});
  std::stable_sort(order.begin(), order.end(), [&](std::size_t a, std::size_t b) {
    return ask.stops[a].days_over > ask.stops[b].days_over;
  });
  return order;
}

// The yards that are searched, most overdue first; bit i of a set stands for the i-th of them.
class Search {
 public:
  Search(const TripAsk& ask, std::vector<std::size_t> stops)
      : ask_(ask), stops_(std::move(stops)), cells_((std::size_t{1} << stops_.size()) * size()) {}

  // In the order of the best trip, as places in `ask`; of equal ones that which begins with the
  // most overdue.
  std::vector<std::size_t> best() {
    for (std::size_t i = 0; i < size(); ++i)
      reach(std::size_t{1} << i, i, kNone, stop(i).from_min + stop(i).walk_min);
    const std::size_t all = std::size_t{1} << size();
    for (std::size_t set = 1; set < all; ++set)
      for (std::size_t i = 0; i < size(); ++i)
        if (cell(set, i).end < kNever) go_on(set, i);
    for (std::size_t set = 1; set < all; ++set)
      if (home_at(set) < kNever && better(set, chosen_)) chosen_ = set;
    return traced(chosen_);
  }
  // With more yards, after best(): of those whose most overdue is at most a day less so. Empty:
  // none.
  std::vector<std::size_t> more() {
    if (chosen_ == 0) return {};
    std::size_t found = 0;
    for (std::size_t set = 1; set < std::size_t{1} << size(); ++set)
      if (std::popcount(set) > std::popcount(chosen_) && home_at(set) < kNever &&
          most_over(set) >= most_over(chosen_) - 1 && (found == 0 || better(set, found)))
        found = set;
    return traced(found);
  }

 private:
  struct Cell {
    double end = kNever;  // of the walk at the last yard
    std::size_t before = kNone;
  };

  [[nodiscard]] std::size_t size() const { return stops_.size(); }
  [[nodiscard]] const TripStop& stop(std::size_t i) const { return ask_.stops[stops_[i]]; }
  [[nodiscard]] Cell& cell(std::size_t set, std::size_t last) {
    return cells_[set * size() + last];
  }

  void reach(std::size_t set, std::size_t last, std::size_t before, double end) {
    Cell& c = cell(set, last);
    if (end > stop(last).until_min + kHair || end > c.end) return;
    c = {end, before};
  }

  void go_on(std::size_t set, std::size_t last) {
    const double end = cell(set, last).end;
    for (std::size_t j = 0; j < size(); ++j) {
      if (set >> j & 1) continue;
      const double arrive = end + ask_.drive_min[stops_[last]][stops_[j]];
      reach(set | std::size_t{1} << j, j, last,
            std::max(arrive, stop(j).from_min) + stop(j).walk_min);
    }
  }

  // The bits stand by days over.
  [[nodiscard]] int most_over(std::size_t set) const {
    return stop(static_cast<std::size_t>(std::countr_zero(set))).days_over;
  }
  [[nodiscard]] std::size_t last_of(std::size_t set) {
    std::size_t best = 0;
    for (std::size_t i = 1; i < size(); ++i)
      if (back_from(set, i) <= back_from(set, best)) best = i;
    return best;
  }
  [[nodiscard]] double back_from(std::size_t set, std::size_t last) {
    return cell(set, last).end + ask_.drive_min[stops_[last]][ask_.stops.size()];
  }
  [[nodiscard]] double home_at(std::size_t set) { return back_from(set, last_of(set)); }

  // The lists of days over, which rise with the bits' places: both go through them in step.
  [[nodiscard]] bool better(std::size_t a, std::size_t b) {
    std::size_t left_a = a, left_b = b;
    while (left_a != 0 && left_b != 0) {
      const int over_a = stop(static_cast<std::size_t>(std::countr_zero(left_a))).days_over;
      const int over_b = stop(static_cast<std::size_t>(std::countr_zero(left_b))).days_over;
      if (over_a != over_b) return over_a > over_b;
      left_a &= left_a - 1;
      left_b &= left_b - 1;
    }
    if (left_a != 0 || left_b != 0) return left_a != 0;
    return home_at(a) < home_at(b);
  }

  [[nodiscard]] std::vector<std::size_t> traced(std::size_t set) {
    std::vector<std::size_t> order;
    for (std::size_t last = set == 0 ? kNone : last_of(set); last != kNone;) {
      order.push_back(stops_[last]);
      const std::size_t before = cell(set, last).before;
      set &= ~(std::size_t{1} << last);
      last = before;
    }
    std::reverse(order.begin(), order.end());
    return order;
  }

  const TripAsk& ask_;
  std::vector<std::size_t> stops_;
  std::vector<Cell> cells_;
  std::size_t chosen_ = 0;
};

// On the clock: each walk as soon as it may be; home is left just in time for the first.
Trip timed(const TripAsk& ask, const std::vector<std::size_t>& order) {
  Trip trip;
  const std::size_t home = ask.stops.size();
  double now = 0;
  for (const std::size_t s : order) {
    const TripStop& stop = ask.stops[s];
    const bool first = trip.visits.empty();
    const double arrive = first ? stop.from_min : now + ask.drive_min[trip.visits.back().stop][s];
    const double begin = std::max(arrive, stop.from_min);
    now = begin + stop.walk_min;
    if (first) trip.leave_min = begin - ask.drive_min[home][s];
    trip.visits.push_back({s, arrive, begin, now});
  }
  if (!order.empty()) trip.home_min = now + ask.drive_min[order.back()][home];
  return trip;
}

}  // namespace

Trip plan_trip(const TripAsk& ask) {
  std::vector<std::size_t> searched;
  std::vector<TripLeftOut> out;
  const std::vector<std::size_t> by_over = by_days_over(ask);
  for (const std::size_t s : by_over) {
    if (!fits_alone(ask.stops[s]))
      out.push_back({s, TripOut::WindowTooShort});
    else if (searched.size() == kTripExact)
      out.push_back({s, TripOut::TooMany});
    else
      searched.push_back(s);
  }
  Search search(ask, searched);
  const std::vector<std::size_t> order = search.best(), more = search.more();
  for (const std::size_t s : searched)
    if (std::find(order.begin(), order.end(), s) == order.end())
      out.push_back({s, TripOut::NoRoom});
  Trip trip = timed(ask, order);
  std::stable_sort(out.begin(), out.end(), [&](const TripLeftOut& a, const TripLeftOut& b) {
    return ask.stops[a.stop].days_over > ask.stops[b.stop].days_over;
  });
  trip.left_out = std::move(out);
  if (!more.empty()) trip.more.push_back(timed(ask, more));
  return trip;
}

}  // namespace engine
