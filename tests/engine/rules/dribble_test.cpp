#include "engine/rules/dribble.h"

#include <doctest/doctest.h>

#include <string>
#include <vector>

namespace dribble_test {

using namespace engine;

// US label from memory, 50 mL also in a supplier's sheet (second-hand).
TEST_CASE("five mL a seam, at most fifty a colony") {
  struct Row {
    std::string name;
    int seams;
    double ml;
  };
  const Row rows[] = {{"none", 0, 0},  {"one", 1, 5},      {"nine", 9, 45},
                      {"ten", 10, 50}, {"eleven", 11, 50}, {"nonsense", -3, 0}};
  for (const Row& r : rows) {
    INFO(r.name);
    CHECK(dribble_ml(r.seams) == r.ml);
  }
}

// Suppliers' preparation sheets (second-hand): 35 g + 600 g water + 600 g sugar, about 0.97 L. At
// 35 g a litre 0.97 L take 33.95 g: the sheet's 35 g are 3 % stronger, within its "about".
TEST_CASE("the mix has the sheet's strength and recipe") {
  const std::vector<int> seams(20, 10);  // 20 colonies of 50 mL: a litre
  const DribbleMix mix = dribble_mix(seams, 0);
  CHECK(mix.ml == doctest::Approx(1000));
  CHECK(mix.acid_g == doctest::Approx(35));
  CHECK(mix.water_g == doctest::Approx(600 / 0.97));
  CHECK(mix.sugar_g == mix.water_g);
  CHECK(mix.colonies == 20);
  const double sheet = 35 / 0.97;
  CHECK(kDribbleGramsPerLitre / sheet == doctest::Approx(0.97));
  // 50 mL hold 1.75 g of dihydrate.
  CHECK(dribble_mix_at_most(1, 0).acid_g == doctest::Approx(1.75));
}

TEST_CASE("a margin is mixed on top, of everything alike") {
  const DribbleMix mix = dribble_mix_at_most(10, 0.1);
  CHECK(mix.ml == doctest::Approx(550));
  CHECK(mix.acid_g / mix.ml == doctest::Approx(0.035));
  CHECK(dribble_mix_at_most(0).ml == 0);
}

}  // namespace dribble_test
