// The mite model against published values, and against the worked example of its own description.
// Sources: Boot 1995 = Boot, Schoenmaker, Calis, Beetsma, Apidologie 26:109-118; Boot 1993 = Boot,
// Calis, Beetsma, J Apic Res 32:167-174; Lee 2010 = Lee et al., J Econ Entomol 103:1039-1050; Berry
// 2022 = Berry et al., PMC8825467; Taiwan = J Apic Sci 2026, 10.2478/jas-2026-0001; Al Toufailia
// 2015 = J Apic Res 54:108-120 (the 97.6 % from a beekeepers' page).
#include <doctest/doctest.h>

#include <cmath>
#include <functional>
#include <numeric>
#include <string>

#include "tests/reference/mites_fixture.h"

namespace mites_model_test {

using namespace reference;

namespace {

doctest::Approx digits(double value) { return doctest::Approx(value).epsilon(1e-6); }

Colony broodless(double adults) {
  Colony c;
  c.adults = adults;
  c.adults_fixed = true;
  c.phoretic_death = 0.002;
  return c;
}

}  // namespace

TEST_CASE("the worked example, untreated, to six digits") {
  const ColonyRun r = run_untreated(colony(), start(), 90);
  CHECK(r.total[0] == digits(2685.269609));
  CHECK(r.phoretic[0] == digits(833.333333));
  CHECK(r.capped_worker[0] == digits(12240));
  CHECK(r.capped_drone[0] == digits(157.5));
  CHECK(r.natural_drop[0] == digits(64.038924));
  CHECK(r.phoretic[1] == digits(851.595187));
  CHECK(r.total[14] == digits(3621.079817));
  CHECK(r.total[42] == digits(6584.690136));
  CHECK(r.wash_per_100[42] == digits(7.356114));
  CHECK(crossing(r.wash_per_100, 5.0)->interpolated == digits(23.920124));
}

TEST_CASE("the worked example, four rounds, to six digits") {
  const ColonyRun r = run(colony(), start(), {{0, 5, 10, 15}, 0.9, 0}, 42);
  CHECK(r.treatment_kill[0] == digits(758.291168));
  CHECK(r.phoretic[1] == digits(237.290218));
  CHECK(r.total[20] == digits(1258.908329));
  CHECK(r.total[42] == digits(2069.707232));
  CHECK(r.capped_cohort == digits(2748.621012));
  CHECK(*r.capped_cohort_exposed == digits(0.5932843711));
  CHECK(reduction({0, 5, 10, 15}, 0.9) == digits(68.56788719));
}

TEST_CASE("the worked example, without brood, to six digits") {
  const Colony c = broodless(10'000);
  const ColonyRun r =
      run(c, start_of(c, {LoadUnit::OnBees, 1000}), {{0}, 0.9, away_share(0.2, 0.5)}, 4);
  const double want[] = {180.372485, 171.232807, 162.556246, 162.231459};
  for (std::size_t day = 1; day <= 4; ++day) CHECK(r.phoretic[day] == digits(want[day - 1]));
}

// Boot 1995: 462 drone cells in 1 kg of bees leave 5 % of the mites on the bees.
TEST_CASE("462 drone cells per kilogram of bees leave five of a hundred mites out") {
  const Constants k;
  CHECK(100 * std::exp(-k.invasion_drone_g * 462 / 1000) == doctest::Approx(5.0).epsilon(0.02));
  CHECK(k.invasion_drone_g / k.invasion_worker_g == doctest::Approx(11.6).epsilon(0.0045));
}

// Boot 1993: half of released mites had invaded after 2.0, 8.3 and 4.3 days; reviews give 4.5 to 11
// days on bees; Lee 2010: mites on bees and pupae together are about twice the figure on bees.
TEST_CASE("mites stay on bees about as long as was measured") {
  const ColonyRun r = run_untreated(colony(), start(), 1);
  const double half = std::log(2.0) / r.invasion_rate[0];
  CHECK(half == doctest::Approx(3.36).epsilon(0.01));
  CHECK(half > 2.0);
  CHECK(half < 8.3);
  const double days = 1 / (r.invasion_rate[0] + 0.006);
  CHECK(days > 4.5);
  CHECK(days < 11);
  const double on_bees = r.phoretic[0] / r.adults[0];
  const double both = r.total[0] / (r.adults[0] + r.capped_worker[0] + r.capped_drone[0]);
  CHECK(both / on_bees == doctest::Approx(2.15).epsilon(0.01));
}

// Growth with brood: 0.021 a day (Calatayud, Verdu, from memory), doubling in about a month; the
// model's description gives 0.027 to 0.016 for losses at emergence of 0.15 to 0.30. (A year of
// brood then multiplies far more than the 800-fold from memory of Martin 1998: that colony is not
// known.)
TEST_CASE("mites with brood double in about a month") {
  const auto rate = [](double loss) {
    Colony c = colony();
    c.constants.emergence_loss = loss;
    const ColonyRun r = run_untreated(c, start_of(c, {LoadUnit::WashPer100, 3.0}), 90);
    return std::log(r.total[90] / r.total[0]) / 90;
  };
  CHECK(rate(0.23) > 0.020);
  CHECK(rate(0.23) < 0.025);
  CHECK(rate(0.15) == doctest::Approx(0.027).epsilon(0.03));
  CHECK(rate(0.30) == doctest::Approx(0.016).epsilon(0.03));
}

// Martin 1998 (from memory, not re-opened): about 800-fold in a year with brood all year, 12-fold
// where there is brood for half of it; within a factor of 2.5. The colonies are own choices, the
// published ones are not known: the reference colony with its bees left to come and go, and one
// whose laying rises and falls over half a year. An independent program gives 1428 and 21.5.
TEST_CASE("in a year mites grow as much as is published, with brood all year and half of it") {
  Colony all_year = colony();
  all_year.adults_fixed = false;
  const auto in_a_year = [](const Colony& c) {
    const ColonyRun r = run_untreated(c, start_of(c, {LoadUnit::WashPer100, 0.01}), 365);
    return r.total[365] / r.total[0];
  };
  CHECK(in_a_year(all_year) == doctest::Approx(1428.0764).epsilon(1e-6));
  CHECK(in_a_year(all_year) < 800 * 2.5);
  Colony half = all_year;
  half.adults = 12'000;
  half.lifespan = Curve({{0, 30}, {150, 30}, {183, 140}});
  half.phoretic_death = Curve({{0, 0.006}, {182, 0.006}, {183, 0.002}});
  std::vector<CurvePoint> rises_and_falls;
  for (int day = 0; day <= 182; day += 7)
    rises_and_falls.push_back({static_cast<double>(day), std::sin(std::acos(-1.0) * day / 182)});
  const auto laying = [&](double most) {
    std::vector<CurvePoint> points = rises_and_falls;
    for (CurvePoint& p : points) p.value *= most;
    points.push_back({365, 0});
    return Curve(std::move(points));
  };
  half.worker_eggs = laying(1200);
  half.drone_eggs = laying(15);
  CHECK(in_a_year(half) == doctest::Approx(21.509893).epsilon(1e-4));
  CHECK(in_a_year(half) < 12 * 2.5);
  CHECK(in_a_year(half) > 12 / 2.5);
}

// Berry 2022: seven rounds of 1 g at 5 days did not bring the mites down; the field kill is
// calibrated on that.
TEST_CASE("seven rounds at the field kill hold the wash about where it was") {
  const double kill = kill_of_dose(1, Reach::Field, Constants{});
  CHECK(kill == doctest::Approx(0.313).epsilon(0.002));
  const ColonyRun r = run(colony(), start(), {{0, 5, 10, 15, 20, 25, 30}, kill, 0}, 42);
  CHECK(r.wash_per_100[35] / r.wash_per_100[0] == doctest::Approx(0.920).epsilon(0.002));
  CHECK(r.wash_per_100[42] / r.wash_per_100[0] == doctest::Approx(1.13).epsilon(0.005));
}

// Taiwan: 86 % after six rounds and 97 % after eight, of 2 g twice a week; within 9 points.
TEST_CASE("rounds twice a week at the exposed kill come near the trial") {
  const double kill = kill_of_dose(2, Reach::Exposed, Constants{});
  const ColonyRun untreated = run_untreated(colony(), start(), 35);
  const auto wash = [&](const std::vector<int>& days) {
    const ColonyRun r = run(colony(), start(), {days, kill, 0}, 35);
    return *compare(r, untreated, 35).wash_reduction_pct;
  };
  const double six = wash({0, 3, 7, 10, 14, 17}), eight = wash({0, 3, 7, 10, 14, 17, 21, 24});
  CHECK(six == doctest::Approx(82.7).epsilon(0.001));
  CHECK(eight == doctest::Approx(89.2).epsilon(0.001));
  CHECK(std::abs(six - 86) < 9);
  CHECK(std::abs(eight - 97) < 9);
}

// Al Toufailia 2015: 97.6 % at 2.25 g in broodless winter colonies.
TEST_CASE("one round of 2.25 g without brood kills as many as in winter colonies") {
  const Colony c = broodless(10'000);
  const double kill = kill_of_dose(2.25, Reach::Exposed, c.constants);
  Colony still = c;
  still.constants.residual_rate = 0;
  still.phoretic_death = 0.0;
  const ColonyRun r = run(still, start_of(still, {LoadUnit::OnBees, 1000}), {{0}, kill, 0}, 1);
  CHECK(r.treatment_kill[0] / 10 == doctest::Approx(97.6).epsilon(0.005));
}

// The table that the model's description prints: percent fewer than untreated on day 42 at the
// field kill of 1 g and 4 g and the exposed kill of 1 g, each to its rounding.
TEST_CASE("schedules give the printed reductions") {
  struct Row {
    std::string name;
    std::vector<int> days;
    double want[3];
  };
  const Row rows[] = {{"one", {0}, {11, 21, 24}},
                      {"3 x 7", {0, 7, 14}, {30, 53, 58}},
                      {"4 x 5", {0, 5, 10, 15}, {37, 63, 68}},
                      {"4 x 7", {0, 7, 14, 21}, {38, 63, 69}},
                      {"5 x 5", {0, 5, 10, 15, 20}, {44, 71, 76}},
                      {"7 x 5", {0, 5, 10, 15, 20, 25, 30}, {56, 82, 86}}};
  const double kills[] = {kill_of_dose(1, Reach::Field, {}), kill_of_dose(4, Reach::Field, {}),
                          kill_of_dose(1, Reach::Exposed, {})};
  for (const Row& row : rows)
    for (std::size_t i = 0; i < 3; ++i) {
      INFO(row.name);
      CHECK(std::abs(reduction(row.days, kills[i]) - row.want[i]) <= 0.75);
    }
}

// The same table's last line, to its rounding: the queen caged on days 0 to 23, one round on
// day 24.
TEST_CASE("one round after a caging does more than seven with brood") {
  Colony caged = colony();
  caged.cages = {{0, 24}};
  const ColonyRun untreated = run_untreated(colony(), start(), 42);
  const auto fewer = [&](double kill) {
    return *compare(run(caged, start(), {{24}, kill, 0}, 42), untreated, 42).reduction_pct;
  };
  CHECK(std::abs(fewer(kill_of_dose(1, Reach::Field, {})) - 66) <= 0.75);
  CHECK(std::abs(fewer(kill_of_dose(4, Reach::Field, {})) - 88) <= 0.75);
  CHECK(std::abs(fewer(kill_of_dose(1, Reach::Exposed, {})) - 94) <= 0.75);
  CHECK(std::abs(*compare(run_untreated(caged, start(), 42), untreated, 42).reduction_pct - 42) <=
        0.75);
}

// And what it says of 4 rounds at 5 days and an exposed kill of 0.89 (68 %) when one thing differs.
TEST_CASE("the printed sensitivities come out, to their rounding") {
  struct Row {
    std::string name;
    std::function<void(Colony&)> change;
    double away;
    double want;
  };
  const Row rows[] = {
      {"invasion halved",
       [](Colony& c) { c.constants.invasion_worker_g /= 2, c.constants.invasion_drone_g /= 2; }, 0,
       82},
      {"invasion half as much again",
       [](Colony& c) { c.constants.invasion_worker_g *= 1.5, c.constants.invasion_drone_g *= 1.5; },
       0, 58},
      {"lighter bees", [](Colony& c) { c.constants.bee_mass_g = 0.10; }, 0, 63},
      {"heavier bees", [](Colony& c) { c.constants.bee_mass_g = 0.14; }, 0, 71},
      {"no residue", [](Colony& c) { c.constants.residual_rate = 0; }, 0, 66},
      {"a strong residue",
       [](Colony& c) { c.constants.residual_rate = 0.3, c.constants.residual_days = 5; }, 0, 82},
      {"a quarter of the bees out", [](Colony&) {}, away_share(0.25, 0.5), 63},
      {"ten immigrants a day", [](Colony& c) { c.immigration = 10.0; }, 0, 65},
  };
  const double kill = kill_of_dose(1, Reach::Exposed, {});
  for (const Row& row : rows) {
    INFO(row.name);
    Colony c = colony();
    row.change(c);
    const ColonyState begin = start_of(c, {LoadUnit::WashPer100, 3.0});
    const ColonyRun untreated = run_untreated(c, begin, 42);
    const double fewer =
        *compare(run(c, begin, {{0, 5, 10, 15}, kill, row.away}, 42), untreated, 42).reduction_pct;
    CHECK(std::abs(fewer - row.want) <= 1);
  }
}

TEST_CASE("worker cells opened between two days, as printed") {
  const Constants k;
  CHECK(cells_opened(k.worker, k, 5) == doctest::Approx(0.417).epsilon(0.002));
  CHECK(cells_opened(k.worker, k, 7) == doctest::Approx(0.583).epsilon(0.002));
  CHECK(cells_opened(k.worker, k, 10) == doctest::Approx(0.833).epsilon(0.002));
  CHECK(cells_opened(k.worker, k, 13) == 1.0);
}

// ---- what must hold whatever the numbers ----

TEST_CASE("twice the mites at the start are twice the mites ever after") {
  const ColonyRun once = run(colony(), start(), {{0, 6, 12}, 0.5, 0.1}, 60);
  const ColonyRun twice =
      run(colony(), start_of(colony(), {LoadUnit::WashPer100, 6.0}), {{0, 6, 12}, 0.5, 0.1}, 60);
  for (const std::size_t day : {0U, 1U, 13U, 60U})
    CHECK(twice.total[day] == doctest::Approx(2 * once.total[day]).epsilon(1e-12));
}

TEST_CASE("a stronger kill reduces more; none, or no bee at home, reduces nothing") {
  double before = -1;
  for (const double kill : {0.1, 0.3, 0.6, 0.9}) {
    const double now = reduction({0, 5, 10, 15}, kill);
    CHECK(now > before);
    before = now;
  }
  Colony c = colony();
  c.constants.residual_rate = 0;
  const ColonyState begin = start_of(c, {LoadUnit::WashPer100, 3.0});
  const ColonyRun untreated = run_untreated(c, begin, 42);
  CHECK(run(c, begin, {{0, 5}, 0, 0}, 42).total[42] == untreated.total[42]);
  CHECK(run(c, begin, {{0, 5}, 0.9, 1}, 42).total[42] == untreated.total[42]);
}

TEST_CASE("mites that neither die nor breed stay as many") {
  Colony c = colony();
  c.phoretic_death = 0.0;
  c.constants.emergence_loss = 0;
  c.constants.mother_survival = 1;
  c.constants.daughters_worker = c.constants.daughters_drone = 0;
  const ColonyRun r = run_untreated(c, start_of(c, {LoadUnit::All, 1000}), 60);
  CHECK(r.total[60] == doctest::Approx(1000).epsilon(1e-9));
}

TEST_CASE("without brood no mite is under a cap at the first round") {
  const Colony c = broodless(10'000);
  const ColonyRun r = run(c, start_of(c, {LoadUnit::OnBees, 1000}), {{0}, 0.9, 0}, 10);
  CHECK(r.capped_cohort == 0);
}

}  // namespace mites_model_test
