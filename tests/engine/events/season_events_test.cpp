// What the season adds to the farm: evenings, drives, brood, several courses in one act.
#include <functional>

#include "engine/words/words.h"
#include "tests/support/evening.h"

namespace season_events_test {

using namespace evening;

namespace {

Date day(unsigned d) {
  return Date{std::chrono::year{2026}, std::chrono::month{8}, std::chrono::day{d}};
}
CourseId course(int n) { return id<CourseId>(n); }
YardId second_yard() { return id<YardId>(2); }

Keeper two_yards() {
  Keeper k = keeper_with(2, 1);
  k.does(at(0), YardAdded{second_yard(), "Mill Lane", {}, {}, {}});
  return k;
}

CoursesPlanned both() {
  return {{{course(1), yard(), {day(14), day(19)}}, {course(2), second_yard(), {day(15)}}}, ""};
}

}  // namespace

TEST_CASE("courses of several yards are planned and moved in one act") {
  Keeper k = two_yards();
  k.does(at(0), both());
  CHECK(k.farm.courses.at(course(2)).yard == second_yard());
  k.does(at(1), EveningLost{day(14),
                            LossWhy::Rain,
                            "",
                            {{course(1), {}, {day(15), day(20)}}, {course(2), {}, {day(16)}}}});
  CHECK(k.farm.courses.at(course(1)).rounds == std::vector{day(15), day(20)});
  CHECK(k.farm.courses.at(course(2)).rounds == std::vector{day(16)});
  CHECK(k.farm.evenings.lost.at(day(14)) == LossWhy::Rain);
  CHECK(describe(k.events.back().body, k.farm) ==
        "evening of 2026-08-14 lost, rain; rounds moved: Long Acre 2026-08-15, 2026-08-20; Mill "
        "Lane 2026-08-16");
}

TEST_CASE("the impossible is refused with its reason") {
  struct Row {
    std::string name;
    Body body;
    Refusal want;
  };
  const Date no_day = Date{std::chrono::year{2026}, std::chrono::month{2}, std::chrono::day{30}};
  const Row rows[] = {
      {"no course", CoursesPlanned{}, Refusal::NoSuchCourse},
      {"unknown course", CoursesPlanned{{{course(9), {}, {day(1)}}}, ""}, Refusal::NoSuchCourse},
      {"known as new", CoursesPlanned{{{course(1), yard(), {day(1)}}}, ""}, Refusal::AlreadyThere},
      {"twice", CoursesPlanned{{{course(1), {}, {day(1)}}, {course(1), {}, {day(1)}}}, ""},
       Refusal::AlreadyThere},
      {"unknown yard", CoursesPlanned{{{course(5), id<YardId>(9), {day(1)}}}, ""},
       Refusal::NoSuchYard},
      {"not rising", CoursesPlanned{{{course(1), {}, {day(2), day(2)}}}, ""}, Refusal::OutOfRange},
      {"a day twice a week", FreeEveningsSet{{Weekday::Friday, Weekday::Friday}},
       Refusal::AlreadyThere},
      {"no evening at all", FreeEveningsSet{}, Refusal::None},
      {"30 February", EveningChanged{no_day, true, ""}, Refusal::OutOfRange},
      {"lost on 30 February", EveningLost{no_day, LossWhy::Rain, "", {}}, Refusal::OutOfRange},
      {"lost, nothing moves", EveningLost{day(3), LossWhy::Rain, "", {}}, Refusal::None},
      {"to itself", DriveTimeSet{yard(), yard(), 10}, Refusal::OutOfRange},
      {"no time", DriveTimeSet{{}, yard(), 0}, Refusal::OutOfRange},
      {"eleven hours", DriveTimeSet{{}, yard(), 660}, Refusal::OutOfRange},
      {"from home", DriveTimeSet{{}, yard(), 600}, Refusal::None},
      {"air on 30 February", AirExpected{no_day, HomePart::Evening, Temperature{80}},
       Refusal::OutOfRange},
      {"61 degrees", AirExpected{day(1), HomePart::Evening, Temperature{610}}, Refusal::OutOfRange},
      {"60 degrees", AirExpected{day(1), HomePart::Dawn, Temperature{600}}, Refusal::None},
      {"below -40", AirExpected{day(1), HomePart::Dawn, Temperature{-401}}, Refusal::OutOfRange},
      {"taken back", AirExpected{day(1), HomePart::Evening, {}}, Refusal::None},
      {"no colony", BroodNoted{{}, day(1), BroodFact::NoBrood, ""}, Refusal::NoSuchColony},
      {"colony twice", BroodNoted{{colony(1), colony(1)}, day(1), BroodFact::NoBrood, ""},
       Refusal::AlreadyThere},
      {"threshold 0", SetupChanged{.thresholds = Thresholds{0, 20, 30, 30}}, Refusal::OutOfRange},
      {"home off the map", SetupChanged{.home = Place{91'000'000, 0}}, Refusal::OutOfRange},
      {"never cleaned", SetupChanged{.clean_every = 0}, Refusal::OutOfRange},
      {"cleaned after each", SetupChanged{.clean_every = 1}, Refusal::None},
      {"cleaned after 1000", SetupChanged{.clean_every = 1000}, Refusal::OutOfRange},
      {"speech too fast to follow", SetupChanged{.speech_speed = 401}, Refusal::OutOfRange},
      {"speech at a walk", SetupChanged{.speech_speed = 80}, Refusal::None},
      {"silence is no volume", SetupChanged{.sound_volume = 0}, Refusal::OutOfRange},
      {"full volume", SetupChanged{.sound_volume = 100}, Refusal::None},
      {"a cartridge of no hours", SetupChanged{.cartridge_hours = 0}, Refusal::OutOfRange},
  };
  Keeper k = two_yards();
  k.does(at(0), both());
  for (const Row& r : rows) {
    INFO(r.name);
    CHECK(why_not(k.farm, k.next(at(5), r.body)) == r.want);
  }
}

TEST_CASE("what a keeper saw of the brood is kept by day, whenever it was entered") {
  Keeper k = two_yards();
  k.does(at(0), BroodNoted{{colony(1), colony(2)}, day(9), BroodFact::QueenReleased, ""});
  k.does(at(1), BroodNoted{{colony(1)}, day(2), BroodFact::QueenCaged, ""});
  const std::vector<BroodNote>& notes = k.farm.colonies.at(colony(1)).brood;
  REQUIRE(notes.size() == 2);
  CHECK(notes[0].what == BroodFact::QueenCaged);
  CHECK(notes[1].what == BroodFact::QueenReleased);
  CHECK(k.farm.colonies.at(colony(2)).brood.size() == 1);
}

TEST_CASE("driving takes as long there as back") {
  Keeper k = two_yards();
  k.does(at(0), DriveTimeSet{second_yard(), yard(), 12});
  k.does(at(1), DriveTimeSet{{}, second_yard(), 25});
  CHECK(k.farm.drive_minutes.at({yard(), second_yard()}) == 12);
  CHECK(k.farm.drive_minutes.at({YardId{}, second_yard()}) == 25);
}

TEST_CASE("the air expected is what was said last, of each evening and dawn for itself") {
  Keeper k = two_yards();
  k.does(at(0), AirExpected{day(14), HomePart::Evening, Temperature{180}});
  k.does(at(1), AirExpected{day(14), HomePart::Dawn, Temperature{60}});
  k.does(at(2), AirExpected{day(14), HomePart::Evening, Temperature{90}});
  CHECK(air_expected(k.farm, day(14), HomePart::Evening) == Temperature{90});
  CHECK(describe(k.events.back().body, k.farm) == "2026-08-14 evening: 9 °C expected");
  k.does(at(3), AirExpected{day(14), HomePart::Evening, {}});
  CHECK_FALSE(air_expected(k.farm, day(14), HomePart::Evening));
  CHECK(air_expected(k.farm, day(14), HomePart::Dawn) == Temperature{60});
  CHECK_FALSE(air_expected(k.farm, day(15), HomePart::Dawn));
}

TEST_CASE("the state's number tells every part of the season apart") {
  using Change = std::function<void(Keeper&)>;
  const Change changes[] = {
      [](Keeper&) {},
      [](Keeper& k) { k.farm.evenings.weekly.emplace(); },
      [](Keeper& k) { k.farm.evenings.weekly = {Weekday::Monday}; },
      [](Keeper& k) { k.farm.evenings.changed[day(1)] = true; },
      [](Keeper& k) { k.farm.evenings.lost[day(1)] = LossWhy::Rain; },
      [](Keeper& k) {
        k.farm.drive_minutes[{YardId{}, yard()}] = 9;
      },
      [](Keeper& k) {
        k.farm.colonies.at(colony(1)).brood.push_back({day(1), {}});
      },
      [](Keeper& k) {
        k.farm.setups[device()].setup.home = Place{1, 2};
      },
      [](Keeper& k) { k.farm.setups[device()].setup.thresholds.emplace(); },
      [](Keeper& k) {
        k.farm.air_expected[{day(1), HomePart::Evening}] = Temperature{80};
      },
      [](Keeper& k) {
        k.farm.air_expected[{day(1), HomePart::Dawn}] = Temperature{80};
      },
  };
  std::set<std::uint64_t> seen;
  for (const Change& change : changes) {
    Keeper k = two_yards();
    change(k);
    seen.insert(state_hash(k.farm));
  }
  CHECK(seen.size() == std::size(changes));
}

}  // namespace season_events_test
