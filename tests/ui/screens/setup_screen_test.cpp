#include <doctest/doctest.h>

#include "tests/support/farm_states.h"

namespace setup_screen_test {

using test::Evening;

namespace {

void open_setup(Evening& e, const std::string& section) {
  test::season(e);
  e.tap("Setup");
  e.tap(section);
}

void type(Evening& e, const std::string& keys) {
  for (const char c : keys) e.tap(std::string(1, c));
  e.tap("OK");
}

}  // namespace

TEST_CASE("units and theme change by one tap, and only when they differ") {
  Evening e;
  open_setup(e, "Units");
  const std::size_t before = e.farm.log.size();
  e.tap("Celsius");
  CHECK(e.farm.log.size() == before);
  e.tap("Fahrenheit"), e.tap("Ounces"), e.tap("Dusk");
  CHECK(e.farm.log.size() == before + 3);
  CHECK(e.farm.setup.temperature_unit == engine::TemperatureUnit::Fahrenheit);
  CHECK(e.farm.setup.mass_unit == engine::MassUnit::Ounce);
  CHECK(e.farm.setup.theme == engine::Theme::Dusk);
}

TEST_CASE("ounces show on the other screens at once") {
  Evening e;
  open_setup(e, "Units");
  e.tap("Ounces"), e.tap("Kit"), e.tap("Acid");
  CHECK(e.sees("9.700 oz LEFT"));  // 275 g / 28.349523125 g, by hand
}

TEST_CASE("who treats is written by letters") {
  Evening e;
  open_setup(e, "Who treats");
  e.tap("Name");
  for (int i = 0; i < 11; ++i) e.tap("DELETE");
  e.tap("B"), e.tap("OK");
  CHECK(e.farm.setup.operator_name == "B");
}

TEST_CASE("a label profile is put in force from its page, with its cautions") {
  Evening e;
  open_setup(e, "Label");
  CHECK(e.sees("Check your label"));
  CHECK(e.sees("IN FORCE"));
  e.tap("Elsewhere");
  CHECK(e.sees("Caution: Acid vapor harms lungs"));
  CHECK(e.sees("invented for the tests"));
  e.tap("Use this label");
  CHECK(e.farm.setup.rules->profile == "other");
  CHECK(e.farm.setup.rules->per_brood_box.mg == 2300);
}

TEST_CASE("a number of the label is edited, checked and saved as one entry") {
  Evening e;
  open_setup(e, "Label numbers");
  const std::size_t before = e.farm.log.size();
  CHECK_FALSE(e.target("Save numbers").enabled);
  e.tap("Dose for a brood box"), type(e, "1.5");
  CHECK(e.sees("1.5 g dihydrate"));
  e.tap("Most for a colony"), type(e, "4");
  e.tap("Save numbers");
  CHECK(e.farm.log.size() == before + 1);
  CHECK(e.farm.setup.rules->per_brood_box.mg == 1500);
  CHECK(e.farm.setup.rules->most_per_colony == engine::Mass{4000});
}

TEST_CASE("a dose that harms bees cannot be typed, a least above its goal cannot be saved") {
  Evening e;
  open_setup(e, "Label numbers");
  e.tap("Dose for a brood box");
  e.tap("2"), e.tap("1");
  CHECK_FALSE(e.target("OK").enabled);  // above 20 g a box: see engine/rules/label.h
  e.tap("CANCEL");
  while (!e.has("Dwell, least")) e.tap("NEXT");
  e.tap("Dwell, least"), type(e, "91");
  CHECK(e.sees("dwell least: must be 0 to the dwell goal"));
  CHECK_FALSE(e.target("Save numbers").enabled);
}

TEST_CASE("a threshold of one's own is kept for its season, the others stay") {
  Evening e;
  open_setup(e, "Own numbers");
  CHECK(e.sees("Too many, summer peak: 3.0 on 100 bees"));
  e.tap("Too many, summer peak"), type(e, "2.5");
  CHECK(e.farm.setup.thresholds == engine::Thresholds{20, 20, 25, 30});
  e.tap("Too many, summer peak"), e.tap("2"), e.tap("1");
  CHECK_FALSE(e.target("OK").enabled);  // above 20 on 100 bees
}

TEST_CASE("how often to clean and how long a cartridge lasts are the keeper's to say") {
  Evening e;
  open_setup(e, "Own numbers");
  while (!e.has("Clean a vaporizer after")) e.tap("NEXT");
  e.tap("Clean a vaporizer after"), type(e, "20");
  CHECK(e.farm.setup.clean_every == 20);
  while (!e.has("Cartridge lasts")) e.tap("NEXT");
  e.tap("Cartridge lasts"), type(e, "8");
  CHECK(e.farm.setup.cartridge_hours == 8);
}

TEST_CASE("home is typed in degrees, with the half of the globe it lies in") {
  Evening e;
  open_setup(e, "Own numbers");
  while (!e.has("Home")) e.tap("NEXT");
  e.tap("Home");
  CHECK_FALSE(e.target("Save home").enabled);
  e.tap("Latitude"), type(e, "33.5");
  e.tap("Which half");
  e.tap("Longitude"), type(e, "151.25");
  e.tap("Save home");
  CHECK(e.farm.setup.home == engine::Place{-33'500'000, 151'250'000});
  CHECK(e.refused.empty());
}

TEST_CASE("about names the store and leads to first aid and back") {
  Evening e;
  open_setup(e, "About");
  CHECK(e.sees("Store: /home/keeper"));
  e.tap("First aid");
  CHECK(e.sees("Rinse with water at once"));
  e.tap("Back");
  CHECK(e.sees("Store: /home/keeper"));
}

}  // namespace setup_screen_test
