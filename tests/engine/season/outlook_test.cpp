#include "engine/season/outlook.h"

#include <algorithm>
#include <cmath>

#include "tests/support/evening.h"

namespace outlook_test {

using namespace evening;

namespace {

Date day(int n) {
  return date_after(Date{std::chrono::year{2026}, std::chrono::month{6}, std::chrono::day{1}},
                    n - 1);
}

// A yard of eight at 45 north whose colonies were all washed on 10 June.
Keeper counted_yard(int mites, std::optional<BroodFact> brood = {}, int noted = 1) {
  Keeper k = keeper_with(8, 1);
  k.does(at(0), YardChanged{.yard = yard(), .place = Place{45'000'000, 0}});
  std::vector<ColonyId> all;
  for (int n = 1; n <= 8; ++n) {
    all.push_back(colony(n));
    k.does(at(0), CountTaken{colony(n), day(10), CountMethod::AlcoholWash, mites, 300, {}, {}});
  }
  if (brood) k.does(at(0), BroodNoted{all, day(noted), *brood, ""});
  return k;
}

const CourseOption* option(const Options& o, OptionKind kind, int rounds = 1) {
  const auto at = std::find_if(o.list.begin(), o.list.end(), [&](const CourseOption& c) {
    return c.kind == kind && c.rounds == rounds;
  });
  return at == o.list.end() ? nullptr : &*at;
}

Options options_for(const Keeper& k, int today) {
  const auto got = course_options(k.farm, yard(), {day(today), usual_kill(k.farm), 7, 3});
  REQUIRE(got);
  return *got;
}

bool any_line(const std::vector<std::string>& lines, const std::string& part) {
  return std::any_of(lines.begin(), lines.end(),
                     [&](const std::string& l) { return l.find(part) != std::string::npos; });
}

}  // namespace

TEST_CASE("without treatment a band leads from the count to the season's end") {
  const Keeper k = counted_yard(4);
  const auto g = yard_growth(k.farm, yard(), day(12), usual_kill(k.farm));
  REQUIRE(g);
  CHECK(g->from == day(10));
  CHECK(iso_date(g->end) == "2026-10-31");
  CHECK(g->days.size() == static_cast<std::size_t>(days_apart(g->from, g->end)) + 1);
  CHECK(g->days[0].mid == doctest::Approx(4.0 / 3).epsilon(1e-6));
  for (const WashBand& d : g->days) {
    CHECK(d.low <= d.mid);
    CHECK(d.mid <= d.high);
  }
  REQUIRE(g->crosses);
  CHECK(*g->crosses_first <= *g->crosses);
  CHECK(g->week.low > 0);
  CHECK(g->week.high > g->week.low);
  CHECK(any_line(g->lines, "Waiting a week"));
  CHECK(any_line(g->lines, "; the wash from "));
  CHECK(any_line(g->lines, "15 points either way at best"));
}

// Growth of a colony with brood: r = 0.02 to 0.025 a day by practitioners and Calatayud and Verdu
// (from memory); this project's band for the loss at emergence gives 0.016 to 0.027.
TEST_CASE("a week in June makes 10 to 21 percent more mites, as published growth rates do") {
  const auto g = yard_growth(counted_yard(4).farm, yard(), day(12), kill_band(Mass{1000}));
  CHECK(g->week.low > 100 * (std::exp(0.014 * 7) - 1));
  CHECK(g->week.high < 100 * (std::exp(0.030 * 7) - 1));
}

TEST_CASE("a colony without a wash has no outlook; one above the threshold says so") {
  CHECK_FALSE(colony_growth(keeper_with(1, 1).farm, colony(1), day(1), kill_band(Mass{1000})));
  const auto g = colony_growth(counted_yard(40).farm, colony(1), day(11), kill_band(Mass{1000}));
  REQUIRE(g);
  CHECK(any_line(g->lines, "already"));
  CHECK(g->beyond_model);
}

TEST_CASE("a queen caged and one round come first and do more than seven rounds with brood") {
  const Options o = options_for(counted_yard(9), 10);
  REQUIRE(o.list.size() == 8);
  CHECK(o.list[0].kind == OptionKind::Caged);
  const CourseOption* seven = option(o, OptionKind::WithBrood, 7);
  REQUIRE(seven);
  CHECK(*o.list[0].field.fewer_than_untreated > *seven->field.fewer_than_untreated);
  CHECK(*o.list[0].exposed.fewer_than_untreated > *seven->exposed.fewer_than_untreated);
}

TEST_CASE("every option says both comparisons, the model's name, and the weaker end first") {
  const Options o = options_for(counted_yard(9), 10);
  for (const CourseOption& c : o.list) {
    INFO(c.title);
    CHECK(*c.field.fewer_than_untreated < *c.exposed.fewer_than_untreated);
    CHECK(any_line(c.lines, "fewer mites than without treatment; versus today"));
    CHECK(any_line(c.lines, "(model)"));
    CHECK(c.cells_opened <= 1);
  }
  CHECK(any_line(o.cautions, "15 points either way at best"));
  const CourseOption* four = option(o, OptionKind::WithBrood, 4);
  CHECK(four->title == "4 rounds, 4 to 7 days apart");
  CHECK(any_line(four->lines, "no measure of success"));
}

TEST_CASE("a window that the keeper noted is offered with its last day") {
  const Keeper k = counted_yard(9, BroodFact::NoBrood, 9);
  const Options o = options_for(k, 10);
  CHECK(o.list[0].kind == OptionKind::Broodless);
  CHECK(o.list[0].first == day(10));
  CHECK(o.list[0].latest == day(16));
  CHECK(any_line(o.list[0].lines, "Noted for 8 of 8 colonies"));
  const Keeper cage = counted_yard(9, BroodFact::QueenCaged, 1);
  const Options c = options_for(cage, 12);
  CHECK(c.list[0].kind == OptionKind::Caged);
  CHECK(c.list[0].first == day(25));
}

TEST_CASE("more rounds are never worse, and one of them is advised") {
  const Options o = options_for(counted_yard(9), 10);
  double before = -1;
  int advised = 0;
  for (const CourseOption& c : o.list) {
    if (c.kind != OptionKind::WithBrood) continue;
    CHECK(*c.field.fewer_than_untreated > before);
    before = *c.field.fewer_than_untreated;
    advised += c.advised;
  }
  CHECK(advised == 1);
}

TEST_CASE("rounds already planned are judged on their own days") {
  const Keeper k = counted_yard(9);
  const OptionsAsk ask{day(10), usual_kill(k.farm), 7, 3};
  const auto planned =
      rounds_outlook(k.farm, yard(), {day(5), day(10), day(15), day(20), day(25)}, ask);
  REQUIRE(planned);
  CHECK(planned->rounds == 4);  // the one of the 5th is over
  const Options o = options_for(k, 10);
  const CourseOption* four = option(o, OptionKind::WithBrood, 4);
  CHECK(*planned->field.fewer_than_untreated ==
        doctest::Approx(*four->field.fewer_than_untreated).epsilon(0.05));
  const auto none = rounds_outlook(k.farm, yard(), {}, ask);
  CHECK(*none->field.fewer_than_untreated == doctest::Approx(0));
}

TEST_CASE("in winter the round without brood comes first, to be looked for") {
  Keeper k = counted_yard(9);
  const Date december{std::chrono::year{2026}, std::chrono::month{12}, std::chrono::day{10}};
  for (int n = 1; n <= 8; ++n)
    k.does(at(1), CountTaken{colony(n), december, CountMethod::AlcoholWash, 6, 300, {}, {}});
  const auto o = course_options(k.farm, yard(), {december, usual_kill(k.farm), 3, 3});
  REQUIRE(o);
  CHECK(o->list[0].kind == OptionKind::Broodless);
  CHECK(any_line(o->list[0].lines, "look first"));
}

TEST_CASE("the assumed colony is said to be assumed, and turns over with the hemisphere") {
  const AssumedColony north = assumed_colony({}, Place{45'000'000, 0}, day(15));
  const AssumedColony south = assumed_colony({}, Place{-45'000'000, 0}, day(15));
  CHECK(north.assumptions[0].starts_with("Assumed"));
  CHECK(north.colony.worker_eggs.at(0) > 1000);
  CHECK(south.colony.worker_eggs.at(0) < 50);
  CHECK(south.colony.adults < north.colony.adults);
  // Tropics: the queen never quite stops; an assumption of this project.
  CHECK(assumed_colony({}, Place{10'000'000, 0}, day(15)).colony.worker_eggs.at(200) >= 600);
  CHECK(iso_date(season_end(day(1), Place{-35'000'000, 0})) == "2027-04-30");
}

// Field 1 g 0.313, exposed 1 g 0.889: the dose curves of the model.
TEST_CASE("the kill of a gram is a band from field to exposed") {
  const KillBand k = kill_band(Mass{1000});
  CHECK(k.low == doctest::Approx(0.313).epsilon(0.01));
  CHECK(k.high == doctest::Approx(0.889).epsilon(0.01));
}

// Prouty et al. 2023: four rounds in nine days gave 40 % (-18 to 82), every 5 and 7 days 96 and 92
// % (tests/reference/mites_trials_test.cpp).
TEST_CASE("rounds of a short span are not called equal to longer ones, and it is said why") {
  const Options o = options_for(counted_yard(9), 10);
  const CourseOption* two = option(o, OptionKind::WithBrood, 2);
  const CourseOption* five = option(o, OptionKind::WithBrood, 5);
  REQUIRE((two && five));
  CHECK(two->title == "2 rounds, 5 days apart");
  CHECK(any_line(two->lines, "span less than 12 days"));
  CHECK(five->title == "5 rounds, 4 to 7 days apart");
  CHECK_FALSE(any_line(five->lines, "span less than"));
}

TEST_CASE("the middle of the band is the headline once three courses have taught it") {
  const Keeper k = counted_yard(9);
  OptionsAsk ask{day(10), {0.4, 0.6, 0.8, 2, "learned"}, 7, 3};
  const auto fewer = [&] {
    const auto all = course_options(k.farm, yard(), ask);
    REQUIRE(all);
    const CourseOption* four = option(*all, OptionKind::WithBrood, 4);
    CHECK(any_line(four->lines, "Most likely") == (ask.kill.courses >= 3));
    return *four->headline.fewer_than_untreated - *four->field.fewer_than_untreated;
  };
  CHECK(fewer() == doctest::Approx(0));
  ask.kill.courses = 3;
  CHECK(fewer() > 5);
}

TEST_CASE(
    "mites that come in from other colonies are a question of their own, and called a guess") {
  const Keeper k = counted_yard(9);
  OptionsAsk ask{day(10), usual_kill(k.farm), 7, 3};
  const auto none = course_options(k.farm, yard(), ask);
  ask.coming_in = 10;
  const auto ten = course_options(k.farm, yard(), ask);
  REQUIRE((none && ten));
  CHECK(ten->untreated.front().mid == doctest::Approx(none->untreated.front().mid));
  CHECK(ten->untreated.back().mid > none->untreated.back().mid);
  for (std::size_t i = 0; i < ten->list.size(); ++i) {
    INFO(ten->list[i].title);
    CHECK(ten->list[i].field.wash > none->list[i].field.wash);
    CHECK(any_line(ten->list[i].lines, "10 mites a day came in from other colonies: a guess"));
    CHECK_FALSE(any_line(none->list[i].lines, "came in"));
  }
}

// Section 7 of the model's description: 10 mites a day lower the reduction of four rounds 5 days
// apart at a kill of 0.89 from 68 to 65 % in its reference colony at day 42 (recomputed there).
TEST_CASE("ten mites a day take some three points off what four rounds do") {
  const Keeper k = counted_yard(9);
  OptionsAsk ask{day(10), {0.31, 0.67, 0.89, 0, ""}, 7, 3};
  const auto fewer = [&](int coming_in) {
    ask.coming_in = coming_in;
    const auto all = course_options(k.farm, yard(), ask);
    REQUIRE(all);
    return *option(*all, OptionKind::WithBrood, 4)->exposed.fewer_than_untreated;
  };
  const double less = fewer(0) - fewer(10);
  CHECK(less > 1);
  CHECK(less < 6);
}

TEST_CASE("where the model does not hold any more, the option says so") {
  const Options many = options_for(counted_yard(30), 10);
  CHECK(many.list[0].kind == OptionKind::Caged);
  CHECK(
      any_line(many.list[0].lines, "all mites are on bees then: there the model no longer holds"));
  const Options few = options_for(counted_yard(3), 10);
  for (const CourseOption& c : few.list) CHECK_FALSE(any_line(c.lines, "no longer holds"));
}

}  // namespace outlook_test
