// Prints what planning the rounds of a whole season's yards costs, and what it gains over the plain
// way: yard by yard, every fifth day, each time on the next evening with room.
#include <fmt/format.h>

#include <algorithm>
#include <chrono>

#include "engine/calendar/calendar.h"

namespace {

using namespace engine;
using Clock = std::chrono::steady_clock;

YardId yard_no(int n) {
  YardId id;
  id.bytes[15] = static_cast<std::uint8_t>(n);
  return id;
}

// Yards on a winding road, 6 to 10 colonies each; Mondays, Wednesdays, Thursdays and Saturdays.
Farm farm_of(int yards) {
  Farm farm;
  farm.setup.home = Place{45'000'000, 5'000'000};
  for (int n = 1; n <= yards; ++n) {
    Yard yard;
    yard.id = yard_no(n);
    yard.name = "Y" + std::to_string(n);
    yard.place = Place{45'000'000 + 30'000 * n, 5'000'000 + (n % 3) * 60'000};
    farm.yards[yard.id] = yard;
    for (int c = 0; c < 6 + n % 5; ++c) {
      Colony colony;
      colony.id.bytes[14] = static_cast<std::uint8_t>(n);
      colony.id.bytes[15] = static_cast<std::uint8_t>(c);
      colony.yard = yard.id;
      farm.colonies[colony.id] = colony;
    }
  }
  farm.evenings.weekly = {Weekday::Monday, Weekday::Wednesday, Weekday::Thursday,
                          Weekday::Saturday};
  return farm;
}

CalendarAsk ask_for(const Farm& farm, int yards, int rounds, Date first) {
  CalendarAsk ask;
  for (int n = 1; n <= yards; ++n) {
    RoundsAsk y;
    y.yard = yard_no(n);
    y.course.bytes[15] = static_cast<std::uint8_t>(n);
    y.rounds = rounds;
    y.earliest = first;
    y.label_gap = 3;
    y.urgency = 1 + n % 3;
    ask.yards.push_back(y);
  }
  ask.free = [&farm](Date d) { return evening_free(farm.evenings, d); };
  ask.holds = holds_by_minutes(farm);
  return ask;
}

struct Figures {
  int evenings = 0, off = 0, last = 0;  // gaps off 4 to 7 days; day of the last round
  double wait = 0;                      // until the first rounds, days, weighted by urgency
};

Figures figures(const CalendarAsk& ask, const std::map<Date, std::vector<YardId>>& held,
                const std::map<YardId, std::vector<Date>>& rounds, Date first) {
  Figures f{static_cast<int>(held.size()), 0, 0, 0};
  double weight = 0;
  for (const RoundsAsk& y : ask.yards) {
    weight += y.urgency;
    f.wait += y.urgency * days_apart(first, rounds.at(y.yard).front());
  }
  f.wait /= weight;
  for (const auto& [yard, dates] : rounds)
    for (std::size_t i = 0; i < dates.size(); ++i) {
      f.last = std::max(f.last, days_apart(first, dates[i]));
      const int gap = i > 0 ? days_apart(dates[i - 1], dates[i]) : kGapLeast;
      f.off += gap < kGapLeast || gap > kGapMost;
    }
  return f;
}

Figures plain(const CalendarAsk& ask, Date first) {
  std::map<Date, std::vector<YardId>> held;
  std::map<YardId, std::vector<Date>> rounds;
  for (const RoundsAsk& y : ask.yards) {
    Date next = y.earliest;
    for (int r = 0; r < y.rounds; ++r) {
      for (;; next = date_after(next, 1)) {
        auto yards = held.contains(next) ? held[next] : std::vector<YardId>{};
        yards.insert(std::upper_bound(yards.begin(), yards.end(), y.yard), y.yard);
        if (!ask.free(next) || !ask.holds(next, yards)) continue;
        held[next] = yards;
        break;
      }
      rounds[y.yard].push_back(next);
      next = date_after(next, 5);
    }
  }
  return figures(ask, held, rounds, first);
}

Figures planned(const Farm& farm, const CalendarAsk& ask, Date first) {
  std::map<Date, std::vector<YardId>> held;
  std::map<YardId, std::vector<Date>> rounds;
  for (const PlacedRounds& p : plan_calendar(farm, ask).yards)
    for (const Date d : p.dates.rounds) held[d].push_back(p.yard), rounds[p.yard].push_back(d);
  return figures(ask, held, rounds, first);
}

template <class Work>
double milliseconds(Work work) {
  const auto from = Clock::now();
  constexpr int kTimes = 20;
  for (int i = 0; i < kTimes; ++i) work();
  return std::chrono::duration<double, std::milli>(Clock::now() - from).count() / kTimes;
}

}  // namespace

int main() {
  const Date first{std::chrono::year{2026}, std::chrono::month{8}, std::chrono::day{3}};
  fmt::print("{:>5} {:>6} {:>9} {:>8} {:>5} {:>5} {:>5}   {:>9} {:>8} {:>5} {:>5} {:>5}\n", "yards",
             "rounds", "plan ms", "evenings", "off", "last", "wait", "plain ms", "evenings", "off",
             "last", "wait");
  struct Size {
    int yards, rounds;
  };
  for (const Size size : {Size{2, 4}, {4, 4}, {8, 4}, {12, 4}, {12, 7}}) {
    const int yards = size.yards, rounds = size.rounds;
    const Farm farm = farm_of(yards);
    Figures plan, base;
    const double plan_ms =
        milliseconds([&] { plan = planned(farm, ask_for(farm, yards, rounds, first), first); });
    const double plain_ms =
        milliseconds([&] { base = plain(ask_for(farm, yards, rounds, first), first); });
    fmt::print(
        "{:>5} {:>6} {:>9.2f} {:>8} {:>5} {:>5} {:>5.1f}   {:>9.2f} {:>8} {:>5} {:>5} {:>5.1f}\n",
        yards, rounds, plan_ms, plan.evenings, plan.off, plan.last, plan.wait, plain_ms,
        base.evenings, base.off, base.last, base.wait);
  }
  fmt::print(
      "off: gaps outside 4 to 7 days; last: day of the last round; wait: days until the first "
      "rounds, "
      "weighted by urgency\n");
}
