#include "engine/calendar/evenings.h"

#include "tests/support/evening.h"

namespace evenings_test {

using namespace evening;

namespace {

Date day(unsigned d) {
  return Date{std::chrono::year{2026}, std::chrono::month{8}, std::chrono::day{d}};
}
YardId yard_no(int n) { return id<YardId>(n); }

// Four yards on a square of 10 minutes a side, home at the first corner's outside.
Keeper square() {
  Keeper k;
  for (int n = 1; n <= 4; ++n)
    k.does(at(0), YardAdded{yard_no(n), "Y" + std::to_string(n), {}, {}, {}});
  for (int a = 1; a <= 4; ++a)
    for (int b = a + 1; b <= 4; ++b)
      k.does(at(0), DriveTimeSet{yard_no(a), yard_no(b), b - a == 2 ? 14 : 10});
  for (int n = 1; n <= 4; ++n) k.does(at(0), DriveTimeSet{{}, yard_no(n), n == 1 ? 5 : 30});
  return k;
}

}  // namespace

TEST_CASE("an evening is free by its own word, then by its weekday, unless it was lost") {
  struct Row {
    std::string name;
    unsigned day;
    bool want;
  };
  Evenings e;
  CHECK(evening_free(e, day(14)));  // never said: any evening
  e.weekly = {Weekday::Friday, Weekday::Sunday};
  e.changed = {{day(10), true}, {day(16), false}};
  e.lost = {{day(21), LossWhy::Rain}};
  // 14 August 2026 is a Friday (ISO 8601).
  const Row rows[] = {{"Friday", 14, true},          {"Thursday", 13, false},
                      {"Sunday", 9, true},           {"a Monday added", 10, true},
                      {"a Sunday taken", 16, false}, {"a Friday lost", 21, false}};
  for (const Row& r : rows) {
    INFO(r.name);
    CHECK(evening_free(e, day(r.day)) == r.want);
  }
  e.weekly = std::vector<Weekday>{};
  CHECK_FALSE(evening_free(e, day(14)));
  CHECK(evening_free(e, day(10)));
}

TEST_CASE("minutes by car are the entered ones, else by distance, else assumed") {
  const EveningPace pace;
  Keeper k = square();
  CHECK(drive_minutes(k.farm, yard_no(2), yard_no(1), pace) == 10);
  CHECK(drive_minutes(k.farm, yard_no(2), yard_no(2), pace) == 0);
  k.does(at(1), YardAdded{yard_no(8), "far", Place{0, 0}, {}, {}});
  CHECK(drive_minutes(k.farm, yard_no(8), yard_no(1), pace) == pace.unknown_drive_min);
  k.does(at(1), YardAdded{yard_no(9), "farther", Place{0, 1'000'000}, {}, {}});
  // A degree of the equator on the mean sphere: 6371.0088 km * pi / 180 = 111.1951 km.
  CHECK(drive_minutes(k.farm, yard_no(8), yard_no(9), pace) ==
        doctest::Approx(111.1951 * 1.3 / 50 * 60).epsilon(1e-5));
}

TEST_CASE("a walk that was planned counts with its own length, the others with the assumed one") {
  const Keeper k = square();
  const std::vector<YardId> two{yard_no(1), yard_no(2)};
  EveningPace pace;
  pace.gate_min = 1;
  pace.walk_min = [](YardId yard) {
    return yard == yard_no(1) ? std::optional(25.0) : std::nullopt;
  };
  CHECK(walk_minutes(k.farm, yard_no(1), pace) == doctest::Approx(26));
  CHECK(walk_minutes(k.farm, yard_no(2), pace) == doctest::Approx(1));  // it holds no colony
  // By hand: 10 between the two, 25, 2 gates.
  CHECK(work_minutes(k.farm, two, pace) == doctest::Approx(10 + 25 + 2));
}

TEST_CASE("where a place is known the evening is as long as the bees are home") {
  Keeper k = square();
  const std::vector<YardId> all{yard_no(1), yard_no(2), yard_no(3), yard_no(4)};
  EveningPace pace;
  pace.gate_min = 1;
  pace.room_min = 0;
  // By hand: 1-2-3-4 without the ways from and to home, 4 gates.
  CHECK(work_minutes(k.farm, all, pace) == doctest::Approx(30 + 4));
  CHECK_FALSE(window_minutes(k.farm, yard_no(1), day(14)));
  CHECK_FALSE(holds_by_minutes(k.farm, pace)(day(14), all));
  k.does(at(1), SetupChanged{.home = Place{45'000'000, 5'000'000}});
  const auto window = window_minutes(k.farm, yard_no(1), day(14));
  REQUIRE(window);
  // Civil twilight lasts about half an hour there, the headlamp two hours more.
  CHECK(*window > 145);
  CHECK(*window < 155);
  CHECK(holds_by_minutes(k.farm, pace)(day(14), all));
  pace.gate_min = 31;  // 30 + 124
  CHECK_FALSE(holds_by_minutes(k.farm, pace)(day(14), all));
}

TEST_CASE("where the sun does not set that day the assumed minutes serve") {
  Keeper k = square();
  k.does(at(1), SetupChanged{.home = Place{69'650'000, 18'960'000}});
  const Date midsummer = std::chrono::year{2026} / 6 / 21;
  CHECK_FALSE(window_minutes(k.farm, yard_no(1), midsummer));
  EveningPace pace;
  pace.gate_min = 1;
  pace.room_min = 69;
  const std::vector<YardId> all{yard_no(1), yard_no(2), yard_no(3), yard_no(4)};
  CHECK(holds_by_minutes(k.farm, pace)(midsummer, all));
}

TEST_CASE("an evening takes the shortest round and every yard's own time") {
  Keeper k = square();
  EveningPace pace;
  pace.gate_min = 1;
  const std::vector<YardId> all{yard_no(1), yard_no(2), yard_no(3), yard_no(4)};
  // By hand: home-1-2-3-4-home 5+10+10+10+30, home-1-3-2-4 longer; 4 gates.
  CHECK(evening_minutes(k.farm, all, pace) == doctest::Approx(65 + 4));
  CHECK(evening_minutes(k.farm, {}, pace) == 0);
  pace.room_min = 69;
  CHECK(holds_by_minutes(k.farm, pace)(day(14), all));
  pace.room_min = 68.9;
  CHECK_FALSE(holds_by_minutes(k.farm, pace)(day(14), all));
  pace.room_min = 1;  // one yard alone is an evening, however large
  CHECK(holds_by_minutes(k.farm, pace)(day(14), std::vector{yard_no(1)}));
}

}  // namespace evenings_test
