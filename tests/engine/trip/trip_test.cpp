// Nothing published was found that is small enough: the least rounds of TSPLIB have 14 places. The
// search is held to trying out every order instead.
#include "engine/trip/trip.h"

#include <doctest/doctest.h>

#include <algorithm>
#include <limits>
#include <numeric>
#include <random>
#include <string>

namespace trip_test {

using namespace engine;

namespace {

// Home and yards on one road, at so many minutes from home.
TripAsk on_a_road(const std::vector<double>& at, const std::vector<TripStop>& stops) {
  TripAsk ask{stops, {}};
  std::vector<double> all = at;
  all.push_back(0);
  for (const double a : all) {
    ask.drive_min.emplace_back();
    for (const double b : all) ask.drive_min.back().push_back(std::abs(a - b));
  }
  return ask;
}

std::vector<std::size_t> order_of(const Trip& trip) {
  std::vector<std::size_t> order;
  for (const TripVisit& v : trip.visits) order.push_back(v.stop);
  return order;
}

struct Worth {
  std::vector<int> over;
  double home = 0;
};
bool better(const Worth& a, const Worth& b) {
  return a.over != b.over ? b.over < a.over : a.home < b.home - 1e-9;
}

// Goes on from the order so far in every way.
void try_all(const TripAsk& ask, std::vector<std::size_t>& order, double end, Worth& best) {
  const std::size_t home = ask.stops.size();
  Worth mine{{}, order.empty() ? 0 : end + ask.drive_min[order.back()][home]};
  for (const std::size_t s : order) mine.over.push_back(ask.stops[s].days_over);
  std::sort(mine.over.rbegin(), mine.over.rend());
  if (better(mine, best)) best = mine;
  for (std::size_t s = 0; s < home; ++s) {
    if (std::find(order.begin(), order.end(), s) != order.end()) continue;
    const TripStop& stop = ask.stops[s];
    const double arrive = order.empty() ? stop.from_min : end + ask.drive_min[order.back()][s];
    const double done = std::max(arrive, stop.from_min) + stop.walk_min;
    if (done > stop.until_min + 1e-9) continue;
    order.push_back(s);
    try_all(ask, order, done, best);
    order.pop_back();
  }
}

TripAsk random_ask(std::mt19937& dice, std::size_t n) {
  const auto between = [&](int from, int to) {
    return from + static_cast<int>(dice() % static_cast<unsigned>(to - from + 1));
  };
  TripAsk ask;
  for (std::size_t i = 0; i < n; ++i) {
    const double from = between(0, 40);
    ask.stops.push_back({between(-1, 3), static_cast<double>(between(5, 60)), from,
                         from + static_cast<double>(between(30, 180))});
  }
  ask.drive_min.assign(n + 1, std::vector<double>(n + 1, 0));
  for (auto& row : ask.drive_min)
    for (double& d : row) d = between(0, 45);
  return ask;
}

Worth worth(const TripAsk& ask, const Trip& trip) {
  Worth w{{}, trip.visits.empty() ? 0 : trip.home_min};
  for (const TripVisit& v : trip.visits) w.over.push_back(ask.stops[v.stop].days_over);
  std::sort(w.over.rbegin(), w.over.rend());
  return w;
}

// What is promised of every trip, whatever was asked.
void well_formed(const TripAsk& ask, const Trip& trip) {
  CHECK(trip.visits.size() + trip.left_out.size() == ask.stops.size());
  for (std::size_t i = 0; i < trip.visits.size(); ++i) {
    const TripVisit& v = trip.visits[i];
    const TripStop& s = ask.stops[v.stop];
    CHECK(v.walk_from_min >= std::max(s.from_min, v.arrive_min));
    CHECK(v.walk_until_min == doctest::Approx(v.walk_from_min + s.walk_min));
    CHECK(v.walk_until_min <= s.until_min + 1e-6);
    if (i == 0) continue;
    const TripVisit& before = trip.visits[i - 1];
    CHECK(v.arrive_min ==
          doctest::Approx(before.walk_until_min + ask.drive_min[before.stop][v.stop]));
  }
}

}  // namespace

TEST_CASE("a trip is on a clock: home, arrive, walk, drive on, home") {
  // By hand: 30 min to the far one, walk 60 to 80, 10 back, walk 90 to 120, 20 home. The other way
  // round the walks end as early, but it is 10 min more from there.
  const Trip t = plan_trip(on_a_road({30, 20}, {{1, 20, 60, 200}, {0, 30, 60, 200}}));
  REQUIRE(t.visits.size() == 2);
  CHECK(t.leave_min == 30);
  CHECK(t.visits[0].stop == 0);
  CHECK(t.visits[0].arrive_min == 60);
  CHECK(t.visits[0].walk_until_min == 80);
  CHECK(t.visits[1].arrive_min == 90);
  CHECK(t.visits[1].walk_until_min == 120);
  CHECK(t.home_min == 140);
}

TEST_CASE("the most overdue come first, then more yards, then an early return") {
  struct Row {
    std::string name;
    std::vector<double> at;
    std::vector<TripStop> stops;
    std::vector<std::size_t> want;
  };
  const Row rows[] = {
      {"nothing to do", {}, {}, {}},
      {"one far overdue beats two due",
       {60, 1, 2},
       {{5, 60, 0, 60}, {0, 20, 0, 60}, {0, 20, 0, 60}},
       {0}},
      {"then the second most overdue",
       {10, 10, 10},
       {{5, 30, 0, 60}, {2, 30, 0, 60}, {3, 30, 0, 60}},
       {0, 2}},
      {"a yard more beats an early return", {1, 50}, {{0, 10, 0, 70}, {0, 10, 0, 70}}, {1, 0}},
      {"a window that closes soon is first", {1, 5}, {{0, 10, 0, 90}, {0, 10, 0, 10}}, {1, 0}},
      {"to the minute", {0, 0}, {{0, 30, 0, 60}, {0, 30, 0, 60}}, {0, 1}},
      {"a minute too long", {0, 0}, {{0, 30, 0, 60}, {0, 31, 0, 60}}, {0}},
      {"no walk fits", {0}, {{9, 61, 0, 60}}, {}},
  };
  for (const Row& r : rows) {
    INFO(r.name);
    CHECK(order_of(plan_trip(on_a_road(r.at, r.stops))) == r.want);
  }
}

TEST_CASE("a yard that was left out says why") {
  const Trip t = plan_trip(on_a_road({0, 0, 0}, {{3, 40, 0, 60}, {9, 61, 0, 60}, {0, 30, 0, 60}}));
  CHECK(order_of(t) == std::vector<std::size_t>{0});
  REQUIRE(t.left_out.size() == 2);
  CHECK(t.left_out[0].stop == 1);
  CHECK(t.left_out[0].why == TripOut::WindowTooShort);
  CHECK(t.left_out[1].why == TripOut::NoRoom);
}

TEST_CASE("beyond twelve yards the twelve most overdue are looked at") {
  std::vector<TripStop> stops;
  std::vector<double> at;
  for (int i = 0; i < 14; ++i) {
    stops.push_back({i, 1, 0, 600});
    at.push_back(i);
  }
  const Trip t = plan_trip(on_a_road(at, stops));
  CHECK(t.visits.size() == kTripExact);
  REQUIRE(t.left_out.size() == 2);
  CHECK(t.left_out[0].stop == 1);
  CHECK(t.left_out[0].why == TripOut::TooMany);
}

TEST_CASE("no order of any choice of yards is better: tried out up to six") {
  std::mt19937 dice(1962);
  for (int round = 0; round < 150; ++round) {
    const TripAsk ask = random_ask(dice, 1 + dice() % 6);
    const Trip trip = plan_trip(ask);
    well_formed(ask, trip);
    Worth best;
    std::vector<std::size_t> order;
    try_all(ask, order, 0, best);
    INFO(round);
    CHECK(worth(ask, trip).over == best.over);
    CHECK(worth(ask, trip).home == doctest::Approx(best.home));
  }
}

TEST_CASE("one yard more is offered, not taken, when the most overdue is at most a day less so") {
  // One yard alone fills the window; two others fit into it together.
  const auto ask = [](int over_a, int over_b) {
    return on_a_road({30, 10, 12}, {{over_a, 100, 0, 100}, {over_b, 40, 0, 100}, {0, 40, 0, 100}});
  };
  const Trip near = plan_trip(ask(5, 4));
  CHECK(order_of(near) == std::vector<std::size_t>{0});
  REQUIRE(near.more.size() == 1);
  CHECK(near.more[0].visits.size() == 2);
  CHECK(near.more[0].more.empty());
  CHECK(plan_trip(ask(6, 4)).more.empty());  // two days less is too much
}

}  // namespace trip_test
