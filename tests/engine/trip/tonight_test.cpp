#include "engine/trip/tonight.h"

#include "tests/support/evening.h"

namespace tonight_test {

using namespace evening;
using std::chrono::minutes;
using std::chrono::sys_seconds;

namespace {

YardId yard_no(int n) { return id<YardId>(n); }

// Home and two yards in a row, 20 minutes apart; 3 days over, and due today.
Keeper two_yards() {
  Keeper k;
  k.does(at(0), YardAdded{yard_no(1), "Long Acre", {}, {}, {}});
  k.does(at(0), YardAdded{yard_no(2), "Mill Lane", Place{45'000'000, 5'000'000}, {}, {}});
  k.does(at(0), DriveTimeSet{{}, yard_no(1), 20});
  k.does(at(0), DriveTimeSet{{}, yard_no(2), 40});
  k.does(at(0), DriveTimeSet{yard_no(1), yard_no(2), 20});
  return k;
}
const std::vector<TripYard> kBoth{{yard_no(1), 3}, {yard_no(2), 0}};

TripWish wish_of(double walk) {
  TripWish w;
  w.on = std::chrono::year{2026} / 8 / 14;
  w.zone = minutes{120};
  w.minutes_of = [walk](YardId) { return walk; };
  return w;
}

double min(sys_seconds from, sys_seconds to) {
  return std::chrono::duration<double, std::ratio<60>>(to - from).count();
}

}  // namespace

TEST_CASE("the trip lies within the bees' evening, and home is left in time for it") {
  const Keeper k = two_yards();
  const TripWish wish = wish_of(50);
  const auto bees = home_of_yard(k.farm, yard_no(1), wish);  // by the other yard's place
  REQUIRE(bees);
  const auto trip = trip_of(k.farm, kBoth, wish);
  REQUIRE(trip);
  REQUIRE(trip->visits.size() == 2);
  // The far yard first: the way there is driven before the bees are home.
  CHECK(trip->visits[0].yard == yard_no(2));
  CHECK(trip->visits[0].walk_from == bees->lamp->from);
  CHECK(min(trip->leave, trip->visits[0].arrive) == doctest::Approx(40));
  CHECK(min(trip->visits[0].walk_until, trip->visits[1].arrive) == doctest::Approx(20));
  CHECK(min(trip->visits[1].walk_until, trip->home) == doctest::Approx(20));
  CHECK(trip->visits[1].walk_until <= bees->lamp->until);
  CHECK(trip->left_out.empty());
  CHECK(trip->drives_known);
}

TEST_CASE("what has no room is named with its reason, the most overdue stays") {
  const Keeper k = two_yards();
  const auto tight = trip_of(k.farm, kBoth, wish_of(100));
  REQUIRE(tight);
  REQUIRE(tight->visits.size() == 1);
  CHECK(tight->visits[0].yard == yard_no(1));
  REQUIRE(tight->left_out.size() == 1);
  CHECK(tight->left_out[0].line == "Mill Lane: no room beside the others");
  const auto none = trip_of(k.farm, kBoth, wish_of(500));
  REQUIRE(none);
  CHECK(none->visits.empty());
  REQUIRE(none->left_out.size() == 2);
  CHECK(none->left_out[0].line.starts_with("Long Acre: its walk of 500 min is longer than"));
}

TEST_CASE("late in the evening nobody sets out in the past") {
  const Keeper k = two_yards();
  TripWish wish = wish_of(30);
  const auto bees = home_of_yard(k.farm, yard_no(2), wish);
  wish.not_before = bees->lamp->from + minutes{60};
  const auto trip = trip_of(k.farm, kBoth, wish);
  REQUIRE(trip);
  REQUIRE_FALSE(trip->visits.empty());
  CHECK(trip->leave >= *wish.not_before);
  wish.not_before = bees->lamp->until;
  CHECK(trip_of(k.farm, kBoth, wish)->visits.empty());
}

TEST_CASE("without any place, or without an evening, there is no trip") {
  Keeper k;
  k.does(at(0), YardAdded{yard_no(1), "Long Acre", {}, {}, {}});
  CHECK_FALSE(trip_of(k.farm, {{yard_no(1), 0}}, wish_of(30)));
  k.does(at(0), SetupChanged{.home = Place{69'650'000, 18'960'000}});
  TripWish wish = wish_of(30);
  CHECK(trip_of(k.farm, {{yard_no(1), 0}}, wish));
  wish.on = std::chrono::year{2026} / 6 / 21;
  CHECK_FALSE(trip_of(k.farm, {{yard_no(1), 0}}, wish));
  CHECK_FALSE(trip_of(k.farm, {}, wish));
}

TEST_CASE("a drive that nobody entered and no map gives is said") {
  Keeper k = two_yards();
  k.does(at(1), YardAdded{yard_no(3), "New", {}, {}, {}});
  const auto trip = trip_of(k.farm, {{yard_no(3), 1}}, wish_of(30));
  REQUIRE(trip);
  CHECK_FALSE(trip->drives_known);
}

TEST_CASE("what is due is visited by its days over, then what is to be visited again") {
  Due due;
  due.rounds = {
      {yard_no(1), {}, 1, 4, {}, 3}, {yard_no(2), {}, 1, 4, {}, 0}, {yard_no(1), {}, 1, 2, {}, 0}};
  due.come_backs = {{.colony = colony(7), .yard = yard_no(2)},
                    {.colony = colony(8), .yard = yard_no(3)},
                    {.colony = colony(9), .yard = yard_no(3)}};
  const Keeper k = two_yards();
  const auto list = yards_to_visit(k.farm, due);
  REQUIRE(list.size() == 3);
  CHECK(list[0].yard == yard_no(1));
  CHECK(list[0].days_over == 3);
  CHECK(list[1].yard == yard_no(2));
  CHECK(list[1].only.empty());  // its round treats all of them
  CHECK(list[2].yard == yard_no(3));
  CHECK(list[2].only == std::vector<ColonyId>{colony(8), colony(9)});
}

TEST_CASE("the air that was said to be expected decides when the bees are home") {
  Keeper k = two_yards();
  const TripWish wish = wish_of(50);
  const auto unsaid = home_of_yard(k.farm, yard_no(2), wish);
  CHECK(unsaid->trust == HomeTrust::Fair);
  k.does(at(1), AirExpected{wish.on, HomePart::Evening, Temperature{70}});
  const auto cold = home_of_yard(k.farm, yard_no(2), wish);
  CHECK(cold->trust == HomeTrust::Likely);
  CHECK(min(cold->lamp->from, unsaid->lamp->from) == doctest::Approx(60));
  TripWish dawn = wish;  // nobody spoke of the dawn
  dawn.part = HomePart::Dawn;
  CHECK(home_of_yard(k.farm, yard_no(2), dawn)->trust == HomeTrust::Fair);
  CHECK(*window_minutes(k.farm, yard_no(2), wish.on) ==
        doctest::Approx(min(cold->lamp->from, cold->lamp->until)));
}

}  // namespace tonight_test
