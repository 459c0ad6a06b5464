#include "engine/calendar/calendar.h"

#include <algorithm>
#include <random>
#include <set>

#include "tests/support/evening.h"

namespace calendar_test {

using namespace evening;

namespace {

Date day(int n) {  // of August, running on into September
  return date_after(Date{std::chrono::year{2026}, std::chrono::month{8}, std::chrono::day{1}},
                    n - 1);
}
YardId yard_no(int n) { return id<YardId>(n); }

EveningHolds at_most(std::size_t n) {
  return [n](Date, std::span<const YardId> yards) { return yards.size() <= n; };
}

RoundsAsk rounds_for(int n, int rounds = 4) {
  RoundsAsk y;
  y.yard = yard_no(n);
  y.course = id<CourseId>(n);
  y.rounds = rounds;
  y.earliest = day(1);
  return y;
}

CalendarAsk ask_for(int yards, std::size_t held) {
  CalendarAsk ask;
  for (int i = 1; i <= yards; ++i) ask.yards.push_back(rounds_for(i));
  ask.free = [](Date) { return true; };
  ask.holds = at_most(held);
  return ask;
}

// What a calendar promises, whatever was asked.
void check_promises(const CalendarAsk& ask, const Calendar& got) {
  std::map<Date, std::vector<YardId>> held = ask.taken;
  for (const PlacedRounds& p : got.yards) {
    const auto y = std::find_if(ask.yards.begin(), ask.yards.end(),
                                [&](const RoundsAsk& a) { return a.yard == p.yard; });
    REQUIRE(y != ask.yards.end());
    REQUIRE(p.dates.rounds.size() == y->walked.size() + static_cast<std::size_t>(y->rounds));
    for (std::size_t i = y->walked.size(); i < p.dates.rounds.size(); ++i) {
      const Date d = p.dates.rounds[i];
      held[d].push_back(p.yard);
      CHECK(ask.free(d));
      CHECK(d >= y->earliest);
      if (i > 0) CHECK(days_apart(p.dates.rounds[i - 1], d) >= y->label_gap);
    }
  }
  for (auto& [d, yards] : held) {
    std::sort(yards.begin(), yards.end());
    CHECK((yards.size() <= 1 || ask.holds(d, yards)));
    CHECK(std::set<YardId>(yards.begin(), yards.end()).size() == yards.size());
  }
}

}  // namespace

TEST_CASE("rounds of a yard stand 4 to 7 days apart, as soon as they may") {
  const CalendarAsk ask = ask_for(1, 1);
  const Calendar got = plan_calendar({}, ask);
  check_promises(ask, got);
  REQUIRE(got.yards.size() == 1);
  const auto& rounds = got.yards[0].dates.rounds;
  CHECK(rounds.front() == day(1));
  for (std::size_t i = 1; i < rounds.size(); ++i) {
    CHECK(days_apart(rounds[i - 1], rounds[i]) >= 4);
    CHECK(days_apart(rounds[i - 1], rounds[i]) <= 7);
  }
  CHECK(got.yards[0].why.empty());
  CHECK(got.yards[0].dates.yard == yard_no(1));
}

TEST_CASE("yards share evenings when these have room, and part when they have not") {
  CHECK(plan_calendar({}, ask_for(3, 3)).evenings == 4);
  const Calendar apart = plan_calendar({}, ask_for(3, 1));
  check_promises(ask_for(3, 1), apart);
  CHECK(apart.evenings == 12);
  for (const PlacedRounds& p : apart.yards) CHECK(p.why.empty());
}

TEST_CASE("only on the keeper's evenings: Mondays and Fridays are 3, 4 or 7 days apart") {
  CalendarAsk ask = ask_for(2, 2);
  Evenings evenings;
  evenings.weekly = {Weekday::Monday, Weekday::Friday};
  ask.free = [&](Date d) { return evening_free(evenings, d); };
  const Calendar got = plan_calendar({}, ask);
  check_promises(ask, got);
  for (const PlacedRounds& p : got.yards) CHECK(p.why.empty());  // 4 or 7, never 3
}

TEST_CASE("what cannot be kept is said, a window that closes is never overrun") {
  CalendarAsk ask = ask_for(1, 1);
  ask.free = [](Date d) { return days_apart(day(1), d) % 9 == 0; };
  const Calendar wide = plan_calendar({}, ask);
  REQUIRE(wide.yards.size() == 1);
  CHECK(wide.yards[0].why.size() == 3);
  CHECK(wide.yards[0].longest_gap == 9);
  ask.yards[0].latest = day(20);  // only three such evenings until then
  const Calendar none = plan_calendar({}, ask);
  CHECK(none.yards.empty());
  CHECK(none.no_room.size() == 1);
}

TEST_CASE("the label's spacing is never broken, even when nothing else is free") {
  CalendarAsk ask = ask_for(1, 1);
  ask.yards[0].label_gap = 5;
  ask.free = [](Date d) { return days_apart(day(1), d) % 4 == 0; };
  const Calendar got = plan_calendar({}, ask);
  check_promises(ask, got);
  CHECK(got.yards[0].longest_gap == 0 + 8);
}

TEST_CASE("rounds that were walked stay, the rest follow the day of the last one") {
  CalendarAsk ask = ask_for(1, 1);
  RoundsAsk& y = ask.yards[0];
  y.is_new = false;
  y.walked = {day(1), day(6)};
  y.last_on = day(7);
  y.rounds = 2;
  y.earliest = day(8);
  const Calendar got = plan_calendar({}, ask);
  const auto& rounds = got.yards[0].dates.rounds;
  REQUIRE(rounds.size() == 4);
  CHECK(rounds[1] == day(6));
  CHECK(rounds[2] == day(11));
  CHECK_FALSE(got.yards[0].dates.yard);
}

TEST_CASE("the yard with more mites begins first where evenings are short") {
  CalendarAsk ask = ask_for(3, 1);
  ask.yards[2].urgency = 5;
  const Calendar got = plan_calendar({}, ask);
  CHECK(got.yards[2].dates.rounds[0] == day(1));
}

TEST_CASE("fifty calendars drawn by lot keep every promise and come out the same twice") {
  std::mt19937 random(20260814);
  for (int n = 0; n < 50; ++n) {
    CAPTURE(n);
    CalendarAsk ask = ask_for(1 + static_cast<int>(random() % 6), 1 + random() % 3);
    std::set<Date> free;
    for (int d = 1; d <= 160; ++d)
      if (random() % 3 != 0) free.insert(day(d));
    ask.free = [&](Date d) { return free.contains(d); };
    ask.horizon_days = 80;
    for (RoundsAsk& y : ask.yards) {
      y.rounds = 1 + static_cast<int>(random() % 5);
      y.earliest = day(1 + static_cast<int>(random() % 20));
      y.label_gap = 1 + static_cast<int>(random() % 6);
    }
    ask.taken[*free.begin()] = {yard_no(90)};
    const Calendar one = plan_calendar({}, ask), two = plan_calendar({}, ask);
    check_promises(ask, one);
    CHECK(one.yards.size() + one.no_room.size() == ask.yards.size());
    REQUIRE(one.yards.size() == two.yards.size());
    for (std::size_t i = 0; i < one.yards.size(); ++i)
      CHECK(one.yards[i].dates == two.yards[i].dates);
  }
}

}  // namespace calendar_test
