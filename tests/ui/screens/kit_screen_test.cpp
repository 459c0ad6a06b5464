#include <doctest/doctest.h>

#include "tests/support/farm_states.h"

namespace kit_screen_test {

using engine::KitSort;
using test::Evening;

namespace {

void open_kit(Evening& e) {
  test::season(e);
  e.tap("Kit");
}

void type(Evening& e, const std::string& keys) {
  for (const char c : keys) e.tap(std::string(1, c));
  e.tap("OK");
}

}  // namespace

TEST_CASE("a cloth is added with the number that comes next") {
  Evening e;
  open_kit(e);
  e.tap("Cloths");
  e.tap("Add cloth");
  e.tap("OK");
  REQUIRE(engine::kit_of(e.farm, KitSort::Cloth).size() == 3);
  CHECK(e.has("Cloth 3"));
  CHECK(e.refused.empty());
}

TEST_CASE("the list turns to the page of what was added last") {
  Evening e;
  open_kit(e);
  e.tap("Cloths");
  for (int n = 3; n <= 12; ++n) {
    e.tap("Add cloth"), e.tap("OK");
    INFO(n);
    CHECK(e.has("Cloth " + std::to_string(n)));
  }
  e.tap("PREV");
  CHECK_FALSE(e.has("Cloth 12"));  // only once: the pages turn as before
}

TEST_CASE("a vaporizer without a battery asks for one before anything else") {
  Evening e;
  open_kit(e);
  e.tap("Old one");
  CHECK(e.sees("none is in it"));
  CHECK(e.target("Change battery").rect.y < e.target("Cleaned").rect.y);
}

TEST_CASE("kit is retired only by holding, and leaves the list") {
  Evening e;
  open_kit(e);
  e.tap("Cloths"), e.tap("Cloth 2");
  CHECK_THROWS(e.tap("Retire"));
  e.hold("Retire");
  CHECK(engine::kit_of(e.farm, KitSort::Cloth).size() == 1);
  CHECK_FALSE(e.has("Cloth 2"));
}

TEST_CASE("a vaporizer asks to be cleaned after about fifty settings") {  // common practice
  Evening e;
  open_kit(e);
  engine::KitItem& v = e.farm.kit.at(test::id<engine::KitId>(1));
  v.settings_since_clean = 49;
  e.redraw();
  CHECK_FALSE(e.sees("CLEAN IT"));
  v.settings_since_clean = 50;
  e.redraw();
  CHECK(e.sees("CLEAN IT"));
  e.tap("Vaporizer 1"), e.tap("Cleaned"), e.tap("Back");
  CHECK(e.sees("0 of about 50 settings since cleaning"));
  CHECK_FALSE(e.sees("CLEAN IT"));
}

TEST_CASE("changing the battery says of the old one only what was told") {
  Evening e;
  open_kit(e);
  e.tap("Vaporizer 1"), e.tap("Change battery"), e.tap("Old one is empty"), e.tap("Battery 3");
  CHECK(e.farm.kit.at(test::id<engine::KitId>(1)).battery == test::id<engine::KitId>(7));
  CHECK(e.farm.kit.at(test::id<engine::KitId>(5)).needs_charge);
  const auto* changed = std::get_if<engine::BatteryChanged>(&e.farm.log.back()->event.body);
  REQUIRE(changed != nullptr);
  CHECK(changed->was_empty);
}

TEST_CASE("a charged battery is ready again") {
  Evening e;
  open_kit(e);
  e.tap("Vaporizer 1"), e.tap("Change battery"), e.tap("Old one is empty"), e.tap("Battery 3");
  e.tap("Kit");
  e.tap("Batteries");
  CHECK(e.sees("CHARGE IT"));
  e.tap("Battery 1"), e.tap("Charged"), e.tap("Back");
  CHECK_FALSE(e.sees("CHARGE IT"));
}

TEST_CASE("stock is received by keypad and letters") {
  Evening e;
  open_kit(e);
  e.tap("Acid"), e.tap("Receive stock");
  CHECK(e.sees("the product is missing"));
  e.tap("Product"), type(e, "O");
  CHECK(e.sees("the amount is missing"));
  e.tap("Amount"), type(e, "35.5");
  e.tap("Expiry"), type(e, "20270230");
  CHECK(e.sees("There is no such day"));
  CHECK(e.sees("year, month, day: 20270301"));
  type(e, "20270301");
  e.tap("Save stock");
  REQUIRE(e.farm.lots.size() == 3);
  const engine::Lot& lot = e.farm.lots.rbegin()->second;
  CHECK(lot.received.mg == 35'500);
  CHECK(engine::iso_date(*lot.expiry) == "2027-03-01");
}

TEST_CASE("more of a lot is received in ounces when the setup says so") {
  Evening e;
  open_kit(e);
  engine::SetupChanged ounces;
  ounces.mass_unit = engine::MassUnit::Ounce;
  e.write(ounces);
  e.tap("Acid"), e.tap("25-002"), e.tap("Receive more");
  e.tap("Amount"), type(e, "1");
  e.tap("Save stock");
  // 275 g and one ounce (avoirdupois, 28.349523125 g by the international agreement of 1959).
  CHECK(e.farm.lots.at(test::id<engine::LotId>(2)).received.mg == 275'000 + 28'350);
}

TEST_CASE("the respirator shows how long its cartridge was worn, and starts anew") {
  Evening e;
  open_kit(e);
  e.tap("Respirator");
  CHECK(e.sees("WORN 37 min"));  // from the first setting to the last uncovering of the walk
  e.tap("Respirator 1"), e.tap("Cartridge changed"), e.tap("OK"), e.tap("Back");
  CHECK(e.sees("WORN 0 min"));
}

TEST_CASE("the pack list compares what is needed with what is there") {
  Evening e;
  open_kit(e);
  e.tap("Pack list"), e.tap("One yard"), e.tap("Quarry Gate");
  CHECK(e.sees("16 g"));
  CHECK(e.sees("rinse water"));
  e.tap("Details");
  // Nine colonies, five of them of two brood boxes: 14 g at 1 g a box, and the largest dose more.
  CHECK(e.sees("needed 16 g, there 767 g"));
  CHECK(e.sees("for 95 % (model, "));
  e.tap("Tonight");
  CHECK(e.sees("Tonight: "));
}

TEST_CASE("a battery and a vaporizer say what was learned of them, and from how much") {
  Evening e;
  open_kit(e);
  e.tap("Vaporizer 1");
  CHECK(e.sees("Dwell at "));
  CHECK(e.sees("usually "));
  e.tap("Back"), e.tap("Batteries"), e.tap("Battery 1");
  CHECK(e.sees(" a charge ("));
}

}  // namespace kit_screen_test
