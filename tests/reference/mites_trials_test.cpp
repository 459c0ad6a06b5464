// The model beside field trials of vapor: the band of a colony that is assumed for the trial's own
// month and latitude, as Henderson-Tilton percent on the day of the trial's last wash, must overlap
// the trial's 95 % interval.
//
// Observed figures are Henderson-Tilton with a bootstrap by colony, computed from the raw counts in
// the authors' public data sets, paired by colony; the counts stand beside each row (mites/bees, T
// treated, C untreated). Not stated there and assumed here: the day of the month a trial began; 1 g
// a brood chamber where no dose is named; a last wash one interval after the last round in Florida;
// the caged trial's days (queen caged on days 0 to 23, vapor on day 24, washed on day 42).
//
// Sources: Berry 2022 = Berry et al., J. Insect Sci. 2022, PMC8825467, and its data set; Prouty
// 2023 = Prouty et al., J. Insect Sci. 2023, data set; Berry 2023 = Berry and Bartlett 2023, data
// set; Aurell 2025 = Aurell et al., J. Econ. Entomol. 2025, toaf126; Coffey = Coffey and Breen,
// abstract.
#include <doctest/doctest.h>

#include <string>

#include "engine/mites/run.h"
#include "engine/season/assumed.h"

namespace mites_trials_test {

using namespace engine;
using namespace engine::mites;

namespace {

struct Interval {
  double low = 0, high = 0;
};

struct Trial {
  std::string name;
  double latitude;
  unsigned month, day;
  std::vector<int> rounds;
  int washed;  // day of the last wash
  double observed;
  Interval interval;
  std::vector<Cage> cages{};
};

constexpr double kDose = 1;  // g

AssumedColony colony_of(const Trial& t) {
  using namespace std::chrono;
  return assumed_colony({}, Place{static_cast<std::int32_t>(t.latitude * 1e6), 0},
                        Date{year{2020}, month{t.month}, std::chrono::day{t.day}});
}

double henderson_tilton(const Trial& t, double kill) {
  const AssumedColony assumed = colony_of(t);
  const auto start = start_of(assumed.colony, {LoadUnit::WashPer100, 3});
  mites::Colony treated = assumed.colony;
  treated.cages = t.cages;
  const auto day = static_cast<std::size_t>(t.washed);
  const double left = run(treated, start, {t.rounds, kill, 0}, t.washed).wash_per_100[day];
  return 100 * (1 - left / run_untreated(assumed.colony, start, t.washed).wash_per_100[day]);
}

Interval band_of(const Trial& t) {
  const Constants k;
  return {henderson_tilton(t, kill_of_dose(kDose, Reach::Field, k)),
          henderson_tilton(t, kill_of_dose(kDose, Reach::Exposed, k))};
}

const std::vector<int> kSevenByFive{0, 5, 10, 15, 20, 25, 30};
constexpr double kGeorgia = 33.9, kAlabama = 32.6, kFlorida = 29.6;

std::vector<Trial> trials() {
  return {
      // Berry 2022; n 27 and 28: T 427/8047 -> 162/6993; C 223/8424 -> 273/7476.
      {"Georgia 2020, 7 rounds every 5 d", kGeorgia, 8, 15, kSevenByFive, 35, 68, {40, 81}},
      // Berry 2022; n 7 and 6: T 72 -> 21 mites; C 53 -> 96.
      {"Georgia 2019, 7 rounds every 5 d", kGeorgia, 8, 15, kSevenByFive, 35, 84, {38, 94}},
      // Berry 2022; mean per 100, week 6: T 4.9 -> 5.5; C 4.4 -> 17.4.
      {"Alabama 2020, 7 rounds every 5 d", kAlabama, 8, 15, kSevenByFive, 42, 71, {48, 85}},
      // Prouty 2023; n 10 each: T 110/1906 -> 8/2025; C 122/1622 -> 105/1701.
      {"Florida, 4 rounds every 7 d", kFlorida, 11, 10, {0, 7, 14, 21}, 28, 92, {79, 98}},
      // Prouty 2023: T 222/1910 -> 7/1667; the same C.
      {"Florida, 4 rounds every 5 d", kFlorida, 11, 10, {0, 5, 10, 15}, 20, 96, {89, 99}},
      // Prouty 2023, washed 3 d after the last: T 79/1534 -> 33/1299; the same C.
      {"Florida, 4 rounds every 3 d", kFlorida, 11, 10, {0, 3, 6, 9}, 12, 40, {-18, 82}},
      // Prouty 2023: T 140/1514 -> 78/2378; C 86/1542 -> 133/2184.
      {"Florida, 3 rounds every 7 d", kFlorida, 2, 15, {0, 7, 14}, 21, 68, {36, 84}},
      // Berry 2023; C 61/2605 -> 132/1935 for all three: 103/3030 -> 30/2119.
      {"Georgia 2023, caged and vapor", kGeorgia, 7, 1, {24}, 42, 86, {72, 94}, {{0, 24}}},
      // 53/2263 -> 29/1633.
      {"Georgia 2023, caged alone", kGeorgia, 7, 1, {}, 42, 74, {34, 92}, {{0, 24}}},
      // 92/2424 -> 111/1883.
      {"Georgia 2023, vapor with brood", kGeorgia, 7, 1, {24}, 42, 47, {-7, 72}},
      // Aurell 2025; day 77, per 100: T 1.57 -> 2.38; C 1.34 -> 4.24. The split's days without
      // laying are assumed (0 to 27), with the vapor on day 24.
      {"One vapor after a split", kAlabama, 5, 1, {24}, 77, 52, {-49, 87}, {{0, 28}}},
  };
}

}  // namespace

TEST_CASE("the band of a colony of that place and month overlaps every trial's interval") {
  for (const Trial& t : trials()) {
    CAPTURE(t.name);
    const Interval band = band_of(t);
    CAPTURE(band.low);
    CAPTURE(band.high);
    CHECK(band.low <= t.interval.high);
    CHECK(band.high >= t.interval.low);
  }
}

// Coffey: 2.3 g of powder (2.04 g of dihydrate) without brood killed 95.2 % (give or take 1.6), and
// 1.3 g of powder (1.15 g) more than 90 %.
TEST_CASE("without brood the kill of the published doses lies in the band") {
  const Constants k;
  CHECK(100 * kill_of_dose(2.04, Reach::Field, k) < 95.2);
  CHECK(100 * kill_of_dose(2.04, Reach::Exposed, k) == doctest::Approx(95.2).epsilon(0.035));
  CHECK(100 * kill_of_dose(1.15, Reach::Exposed, k) > 90);
}

// Prouty 2023: the short span of nine days is where the model is too good. Its headline, the field
// end, lies above what was seen, and of the three Florida schedules it alone does; so short spans
// are never called equal to longer ones (engine/season/outlook.h).
TEST_CASE("of the Florida schedules the model is too good for the nine days alone") {
  for (const Trial& t : trials())
    if (t.name.find("Florida, 4") == 0) {
      CAPTURE(t.name);
      CHECK((band_of(t).low > t.observed) == (t.name == "Florida, 4 rounds every 3 d"));
    }
}

}  // namespace mites_trials_test
