// What is set on one tablet is never put in the place of what is set on another.
#include "engine/farm/setups.h"

#include <doctest/doctest.h>

#include <algorithm>

#include "engine/farm/merge_order.h"
#include "tests/support/evening.h"

namespace setups_test {

using namespace evening;

namespace {

DeviceId tablet(int n) { return id<DeviceId>(n); }

// All that several tablets wrote.
struct Written {
  std::vector<Event> events;

  EntryRef says(int n, int seconds, Body body) {
    std::int64_t seq = 1;
    for (const Event& e : events) seq += e.ref.device == tablet(n) ? 1 : 0;
    events.push_back({{tablet(n), seq}, at(seconds), std::move(body)});
    return events.back().ref;
  }
  [[nodiscard]] Farm seen_on(int n) const { return shown_on(fold_together(events), tablet(n)); }
};

SetupChanged dose(int mg) {
  LabelRules label = rules();
  label.per_brood_box = Mass{mg};
  label.most_per_brood_box.reset();
  return {.rules = label};
}

Mass dose_in_force(const Farm& farm) {
  return farm.setup.rules ? farm.setup.rules->per_brood_box : Mass{};
}

// Both have a name, units, a theme and a label of their own.
Written two_keepers() {
  Written w;
  SetupChanged one = dose(2000), other = dose(1000);
  one.operator_name = "A. Example", other.operator_name = "B. Example";
  one.theme = Theme::Sun, other.theme = Theme::Dusk;
  one.mass_unit = MassUnit::Gram, other.mass_unit = MassUnit::Ounce;
  w.says(1, 0, one), w.says(2, 10, other);
  return w;
}

}  // namespace

TEST_CASE("after a merge each tablet has what was set on it, whoever said it last") {
  const Written w = two_keepers();
  const Farm one = w.seen_on(1), other = w.seen_on(2);
  CHECK(one.setup.operator_name == "A. Example");
  CHECK(one.setup.theme == Theme::Sun);
  CHECK(one.setup.mass_unit == MassUnit::Gram);
  CHECK(dose_in_force(one) == Mass{2000});
  CHECK(other.setup.operator_name == "B. Example");
  CHECK(other.setup.theme == Theme::Dusk);
  CHECK(dose_in_force(other) == Mass{1000});
  CHECK(state_hash(one) == state_hash(other));
}

TEST_CASE("a tablet on which nothing was set takes nobody's, and offers it") {
  const Written w = two_keepers();
  const Farm fresh = w.seen_on(3);
  CHECK(fresh.setup.operator_name.empty());
  CHECK_FALSE(fresh.setup.rules);
  REQUIRE(offers(fresh).size() == 2);
  CHECK(offers(fresh)[0].tablet == tablet(1));
  REQUIRE(offers(fresh)[0].change.rules);
  CHECK(offers(fresh)[0].change.rules->per_brood_box == Mass{2000});
  CHECK_FALSE(offers(fresh)[0].change.operator_name);
}

TEST_CASE("several tablets that have the same offer it once") {
  Written w;
  w.says(2, 0, dose(1000)), w.says(3, 1, dose(1000)), w.says(4, 2, dose(900));
  REQUIRE(offers(w.seen_on(1)).size() == 2);
  CHECK(offers(w.seen_on(1))[0].entries.size() == 2);
  w.says(1, 10, SetupKept{offers(w.seen_on(1))[0].entries});
  CHECK(offers(w.seen_on(1)).size() == 1);
}

TEST_CASE("used here, an offer holds here and is not asked about again") {
  Written w = two_keepers();
  REQUIRE(offers(w.seen_on(1)).size() == 1);
  w.says(1, 20, offers(w.seen_on(1))[0].change);
  CHECK(dose_in_force(w.seen_on(1)) == Mass{1000});
  CHECK(w.seen_on(1).setup.operator_name == "A. Example");
  CHECK(offers(w.seen_on(1)).empty());
}

TEST_CASE("what the keeper keeps is not asked about again, until the other says something new") {
  Written w = two_keepers();
  w.says(1, 20, SetupKept{offers(w.seen_on(1))[0].entries});
  CHECK(dose_in_force(w.seen_on(1)) == Mass{2000});
  CHECK(offers(w.seen_on(1)).empty());
  CHECK(offers(w.seen_on(2)).size() == 1);  // there it was not looked at
  w.says(2, 30, SetupChanged{.theme = Theme::Sun});
  CHECK(offers(w.seen_on(1)).empty());
  w.says(2, 40, dose(1500));
  REQUIRE(offers(w.seen_on(1)).size() == 1);
  CHECK(offers(w.seen_on(1))[0].change.rules->per_brood_box == Mass{1500});
}

TEST_CASE("what the keeper chooses himself is not asked about; what was open before stays open") {
  Written w;
  w.says(1, 0, dose(1000)), w.says(2, 5, dose(1000)), w.says(3, 6, dose(900));
  const Farm before = w.seen_on(1);
  REQUIRE(offers(before).size() == 1);
  const auto bodies = chosen_here(before, dose(2000));
  REQUIRE(bodies.size() == 2);
  for (const Body& body : bodies) w.says(1, 20, body);
  REQUIRE(offers(w.seen_on(1)).size() == 1);
  CHECK(offers(w.seen_on(1))[0].tablet == tablet(3));
  CHECK(chosen_here(before, SetupChanged{.theme = Theme::Dusk}).size() == 1);
}

TEST_CASE("a strike takes back what was set on that tablet alone") {
  Written w = two_keepers();
  const EntryRef wrong = w.says(1, 20, dose(3000));
  w.says(1, 30, EntryStruck{wrong, "mistyped"});
  CHECK(dose_in_force(w.seen_on(1)) == Mass{2000});
  CHECK(dose_in_force(w.seen_on(2)) == Mass{1000});
}

TEST_CASE("a side of a fork has what was set before it, and its own from then on") {
  const DeviceId first = tablet(11), second = tablet(12);
  const Branches branches = {{first, tablet(1), tablet(1), 2}, {second, tablet(1), tablet(1), 2}};
  SetupChanged named = dose(2000);
  named.operator_name = "A. Example";
  const std::vector<Event> events = {{{tablet(1), 1}, at(0), named},
                                     {{first, 2}, at(10), dose(1000)},
                                     {{second, 2}, at(5), SetupChanged{.theme = Theme::Dusk}}};
  const Farm farm = fold_together(events, branches);
  CHECK(setup_of(farm, first).rules->per_brood_box == Mass{1000});
  CHECK(setup_of(farm, first).operator_name == "A. Example");
  CHECK(setup_of(farm, second).rules->per_brood_box == Mass{2000});
  CHECK(setup_of(farm, second).theme == Theme::Dusk);
}

TEST_CASE("a farm that no tablet shows has what was set on the only one") {
  Keeper k;
  k.does(at(0), SetupChanged{.operator_name = "A. Example"});
  CHECK(k.farm.setup.operator_name == "A. Example");
  k.does(at(1), SetupChanged{.theme = Theme::Dusk});
  CHECK(k.farm.setup.operator_name == "A. Example");
  CHECK(k.farm.setup.theme == Theme::Dusk);
}

TEST_CASE("all of a setup can be said again as one change") {
  SetupChanged all = dose(2000);
  all.operator_name = "A. Example";
  all.mass_unit = MassUnit::Ounce;
  all.cartridge_hours = 40;
  all.theme = Theme::Night;
  all.spoken = false;
  all.speech_speed = 150;
  all.sound_volume = 60;
  Keeper k;
  k.does(at(0), all);
  const auto again = all_of(k.farm.setup, Setup{});
  REQUIRE(again);
  Keeper other;
  other.does(at(0), *again);
  CHECK(other.farm.setup.operator_name == "A. Example");
  CHECK(other.farm.setup.mass_unit == MassUnit::Ounce);
  CHECK(other.farm.setup.cartridge_hours == 40);
  CHECK(other.farm.setup.theme == Theme::Night);
  CHECK(other.farm.setup.spoken == false);
  CHECK(other.farm.setup.speech_speed == 150);
  CHECK(other.farm.setup.sound_volume == 60);
  CHECK(dose_in_force(other.farm) == Mass{2000});
  CHECK_FALSE(all_of(other.farm.setup, k.farm.setup));
}

}  // namespace setups_test
