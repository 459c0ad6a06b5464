// The calendar held against going through everything: all places of all yards' rounds, priced by
// this file's own reading of what the header promises.
#include <algorithm>
#include <random>
#include <set>

#include "engine/calendar/calendar.h"
#include "tests/support/evening.h"

namespace enumerate_test {

using namespace evening;

namespace {

Date day(int n) {
  return date_after(Date{std::chrono::year{2026}, std::chrono::month{8}, std::chrono::day{1}},
                    n - 1);
}

// The prices of engine/calendar/placing.h: a day off the asked gaps 50, a day later 2 by urgency,
// an evening more 3, a day of length 0.2; a yard without evenings a million.
double price_of(const RoundsAsk& y, const std::vector<Date>& at) {
  double sum = 2 * y.urgency * days_apart(y.earliest, at[0]);
  for (std::size_t i = 1; i < at.size(); ++i) {
    const int gap = days_apart(at[i - 1], at[i]);
    const int off = gap < y.gap_least ? y.gap_least - gap : std::max(0, gap - y.gap_most);
    sum += 50 * off + 0.2 * gap;
  }
  return sum;
}

struct Way {
  std::vector<Date> at;
  double price = 0;
};

// Every way to place the yard's rounds on the evenings, the cheapest first.
std::vector<Way> ways_of(const RoundsAsk& y, const std::vector<Date>& free) {
  std::vector<Way> ways;
  std::vector<Date> at;
  const auto go = [&](auto& self, std::size_t from) -> void {
    if (at.size() == static_cast<std::size_t>(y.rounds))
      return void(ways.push_back({at, price_of(y, at)}));
    for (std::size_t e = from; e < free.size(); ++e) {
      if (free[e] < y.earliest || (y.latest && free[e] > *y.latest)) continue;
      if (!at.empty() && days_apart(at.back(), free[e]) < y.label_gap) continue;
      at.push_back(free[e]);
      self(self, e + 1);
      at.pop_back();
    }
  };
  go(go, 0);
  std::stable_sort(ways.begin(), ways.end(),
                   [](const Way& a, const Way& b) { return a.price < b.price; });
  return ways;
}

// The least price of all yards together. Whatever costs no less than the best so far is left.
class Everything {
 public:
  // Looks for what costs less than `known`.
  Everything(const CalendarAsk& ask, const std::vector<Date>& free, double known)
      : ask_(ask), least_(known) {
    for (const RoundsAsk& y : ask.yards) ways_.push_back(ways_of(y, free));
    rest_.assign(ways_.size() + 1, 0);
    for (std::size_t i = ways_.size(); i-- > 0;)
      rest_[i] = rest_[i + 1] + (ways_[i].empty() ? 1e6 : std::min(1e6, ways_[i][0].price));
    go(0, 0);
  }
  [[nodiscard]] double least() const { return least_; }

 private:
  void go(std::size_t yard, double price) {
    const double evenings = 3.0 * static_cast<double>(held_.size());
    if (price + evenings + rest_[yard] >= least_ - 1e-9) return;
    if (yard == ways_.size()) {
      for (const auto& [on, yards] : held_)
        if (!ask_.holds(on, yards)) return;
      least_ = price + evenings;
      return;
    }
    for (const Way& way : ways_[yard]) {
      if (price + evenings + way.price + rest_[yard + 1] >= least_ - 1e-9) break;
      put(yard, way);
      go(yard + 1, price + way.price);
      take(yard, way);
    }
    go(yard + 1, price + 1e6);
  }
  void put(std::size_t yard, const Way& way) {
    for (const Date d : way.at)
      held_[d].insert(std::upper_bound(held_[d].begin(), held_[d].end(), ask_.yards[yard].yard),
                      ask_.yards[yard].yard);
  }
  void take(std::size_t yard, const Way& way) {
    for (const Date d : way.at) {
      auto& yards = held_[d];
      yards.erase(std::find(yards.begin(), yards.end(), ask_.yards[yard].yard));
      if (yards.empty()) held_.erase(d);
    }
  }

  const CalendarAsk& ask_;
  std::vector<std::vector<Way>> ways_;
  std::vector<double> rest_;
  std::map<Date, std::vector<YardId>> held_;
  double least_;
};

// What the calendar's answer costs by the same prices.
double price_of(const CalendarAsk& ask, const Calendar& got) {
  double sum = 1e6 * static_cast<double>(got.no_room.size());
  std::set<Date> out;
  for (const PlacedRounds& p : got.yards) {
    const auto y = std::find_if(ask.yards.begin(), ask.yards.end(),
                                [&](const RoundsAsk& a) { return a.course == p.dates.course; });
    sum += price_of(*y, p.dates.rounds);
    out.insert(p.dates.rounds.begin(), p.dates.rounds.end());
  }
  return sum + 3.0 * static_cast<double>(out.size());
}

struct Drawn {
  CalendarAsk ask;
  std::vector<Date> free;
};

// Yards that share few evenings, some in windows that close, some urgent.
Drawn drawn(std::mt19937& random, std::size_t yards, int rounds, std::size_t evenings) {
  Drawn d;
  std::set<int> days;
  const int span = static_cast<int>(evenings) + 4 + static_cast<int>(random() % 16);
  while (days.size() < evenings)
    days.insert(1 + static_cast<int>(random() % static_cast<unsigned>(span)));
  for (const int n : days) d.free.push_back(day(n));
  const std::set<Date> free(d.free.begin(), d.free.end());
  d.ask.free = [free](Date on) { return free.contains(on); };
  const std::size_t room = 1 + random() % 2;
  d.ask.holds = [room](Date, std::span<const YardId> held) { return held.size() <= room; };
  d.ask.horizon_days = span + 8;
  for (std::size_t i = 0; i < yards; ++i) {
    RoundsAsk y;
    y.yard = id<YardId>(static_cast<int>(i) + 1);
    y.course = id<CourseId>(static_cast<int>(i) + 1);
    y.rounds = rounds;
    y.earliest = day(1 + static_cast<int>(random() % 4));
    y.label_gap = 1 + static_cast<int>(random() % 4);
    y.urgency = 1 + static_cast<int>(random() % 3);
    if (random() % 5 == 0) y.latest = day(span - 2);
    d.ask.yards.push_back(y);
  }
  return d;
}

}  // namespace

TEST_CASE("up to three yards of four rounds stand where going through everything puts them") {
  std::mt19937 random(1414);
  int refused = 0;
  for (int n = 0; n < 30; ++n) {
    CAPTURE(n);
    const Drawn d = drawn(random, 1 + static_cast<std::size_t>(n % 3), 2 + n % 3, 12);
    const Calendar got = plan_calendar({}, d.ask);
    const double price = price_of(d.ask, got);
    CHECK(Everything(d.ask, d.free, price).least() == price);
    refused += static_cast<int>(got.no_room.size());
  }
  MESSAGE("yards that have no room at all: ", refused);
}

TEST_CASE("of four yards fewer than 5 in 100 calendars are worse than the best, and none refuses") {
  std::mt19937 random(141414);
  int worse = 0, falsely = 0;
  constexpr int kDrawn = 40;
  for (int n = 0; n < kDrawn; ++n) {
    const Drawn d = drawn(random, 4, 2, 9);
    const Calendar got = plan_calendar({}, d.ask);
    const double price = price_of(d.ask, got);
    const double least = Everything(d.ask, d.free, price).least();
    worse += price > least + 1e-6 ? 1 : 0;
    falsely += static_cast<double>(got.no_room.size()) * 1e6 > least + 1e5 ? 1 : 0;
  }
  MESSAGE("worse than the best: ", worse, " of ", kDrawn);
  CHECK(worse * 100 < 5 * kDrawn);
  CHECK(falsely == 0);
}

}  // namespace enumerate_test
