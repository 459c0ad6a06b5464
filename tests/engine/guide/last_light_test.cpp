#include "engine/guide/last_light.h"

#include "tests/support/evening.h"

namespace last_light_test {

using namespace evening;

namespace {

Keeper at_place(std::optional<Place> place) {
  Keeper k;
  k.does(at(0), YardAdded{yard(), "Long Acre", place, {}, {}});
  return k;
}

Stamp stamp(const char* text) { return *stamp_from_rfc3339(text); }

}  // namespace

TEST_CASE("the last light of the evening is civil dusk at the yard") {
  // Boulder, Colorado, 40.0 N 105.25 W, 2026-08-14: civil dusk 20:26 local, as PyEphem gives it
  // (tests/reference/light_outside.py compares the sun itself).
  const Keeper k = at_place(Place{40'000'000, -105'250'000});
  const auto dusk = last_light(k.farm, yard(), stamp("2026-08-14T19:00:00-06:00"));
  REQUIRE(dusk);
  CHECK(clock_time(*dusk).substr(0, 4) == "20:2");
  CHECK_FALSE(last_light(k.farm, yard(), stamp("2026-08-14T06:00:00-06:00")));
}

TEST_CASE(
    "the clock's midnight ends no evening: five minutes after, the dusk is still yesterday's") {
  // Helsinki, 60.17 N 24.94 E: around 10 June civil dusk falls near the clock's midnight.
  const Keeper north = at_place(Place{60'170'000, 24'940'000});
  const auto before = last_light(north.farm, yard(), stamp("2026-06-10T23:50:00+03:00"));
  const auto after = last_light(north.farm, yard(), stamp("2026-06-11T00:05:00+03:00"));
  REQUIRE(before);
  REQUIRE(after);
  CHECK(before->at == after->at);
  CHECK_FALSE(last_light(north.farm, yard(), stamp("2026-06-11T03:30:00+03:00")));
}

TEST_CASE("no last light where nobody knows the place, or where it stays light") {
  CHECK_FALSE(last_light(at_place({}).farm, yard(), stamp("2026-08-14T19:00:00-06:00")));
  const Keeper north = at_place(Place{69'600'000, 18'900'000});  // polar day
  CHECK_FALSE(last_light(north.farm, yard(), stamp("2026-06-21T21:00:00+02:00")));
}

TEST_CASE("an ending is held against the dusk") {
  const Stamp dusk = stamp("2026-08-14T20:30:00-06:00");
  struct Row {
    std::string name;
    const char* ends;
    std::string words;
    bool late;
  };
  const Row rows[] = {
      {"early", "2026-08-14T20:10:30-06:00", "ends 20:10, 19 min before dusk", false},
      {"on the minute", "2026-08-14T20:30:00-06:00", "ends 20:30, 0 min before dusk", false},
      {"late", "2026-08-14T20:35:00-06:00", "ends 20:35, 5 min after dusk", true}};
  for (const Row& r : rows) {
    INFO(r.name);
    CHECK(ending(stamp(r.ends), dusk).words == r.words);
    CHECK(ending(stamp(r.ends), dusk).late == r.late);
  }
  CHECK(ending(dusk, {}).words == "ends 20:30");
}

}  // namespace last_light_test
