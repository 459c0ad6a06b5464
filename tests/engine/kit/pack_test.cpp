#include <numeric>

#include "engine/kit/packing_list.h"
#include "engine/kit/upkeep.h"
#include "engine/learn/dwell.h"
#include "tests/support/evening.h"

namespace pack_test {

using namespace evening;

namespace {

const Date kDay{std::chrono::year{2026}, std::chrono::month{8}, std::chrono::day{14}};

BatteryModel common_practice() { return learn_battery(std::vector<ChargeSeen>{}); }

PackAsk for_yard(const Keeper& k) {
  return {to_treat(k.farm, colonies_of(k.farm, yard()), rules()), rules(), kDay, {}};
}

PackList packed(const Keeper& k) { return pack_for(k.farm, common_practice(), for_yard(k)); }

void stock(Keeper& k, int n, Mass amount, std::optional<Date> expiry) {
  StockReceived s;
  s.lot = id<LotId>(n);
  s.product = "oxalic acid";
  s.amount = amount;
  s.expiry = expiry;
  k.does(at(1), s);
}

Date date(int year, unsigned month) {
  return {std::chrono::year{year}, std::chrono::month{month}, std::chrono::day{1}};
}

void add_batteries(Keeper& k, int from, int to) {
  for (int i = from; i <= to; ++i)
    k.does(at(1), KitAdded{battery(i), KitSort::Battery, "B" + std::to_string(i)});
}

}  // namespace

TEST_CASE("a colony is packed for with the dose that will be prompted") {
  Keeper k = keeper_with(2, 1);
  ColonyChanged one{colony(2)};
  one.brood_boxes = 1;
  k.does(at(1), one);
  const std::vector<ToTreat> list = for_yard(k).colonies;
  REQUIRE(list.size() == 2);
  CHECK(list[0].dose == Mass{2000});  // two boxes at 1 g
  CHECK(list[1].dose == Mass{1000});
}

TEST_CASE("acid is the doses and a tenth more, out of the lot that expires first") {
  struct Row {
    std::string name;
    int colonies;
    std::vector<Mass> takes;  // by lot, in the order of use
    Mass short_by;
  };
  // 20 g that expires in October, 5 g in December, 100 g with no expiry noted; 40 g is past.
  const Row rows[] = {
      {"the first lot is enough", 9, {Mass{20'000}}, {}},
      {"to the last gram of it", 10, {Mass{20'000}, Mass{2000}}, {}},
      {"three lots", 20, {Mass{20'000}, Mass{5000}, Mass{19'000}}, {}},
      {"all of it and short", 60, {Mass{20'000}, Mass{5000}, Mass{100'000}}, Mass{7000}},
  };
  for (const Row& r : rows) {
    INFO(r.name);
    Keeper k = keeper_with(r.colonies, 1);  // brings the lot of 100 g
    stock(k, 2, Mass{5000}, date(2026, 12));
    stock(k, 3, Mass{20'000}, date(2026, 10));
    stock(k, 4, Mass{40'000}, date(2026, 8));
    const PackAcid acid = packed(k).acid;
    CHECK(acid.doses == Mass{2000} * r.colonies);
    // A tenth more, or one dose where that is more.
    CHECK(acid.needed == acid.doses + Mass{std::max<std::int64_t>(2000, 200L * r.colonies)});
    CHECK(acid.there == Mass{125'000});
    std::vector<Mass> takes;
    for (const auto& lot : acid.lots) takes.push_back(lot.take);
    CHECK(takes == r.takes);
    CHECK(acid.short_by() == r.short_by);
  }
}

TEST_CASE("batteries are counted by what the model says they last") {
  struct Row {
    std::string name;
    int colonies, batteries;
    bool enough, spare;
  };
  const Row rows[] = {
      {"a few colonies on one", 6, 1, true, false},
      {"the same with one to spare", 6, 2, true, true},
      {"what one charge just gives is not sure", 25, 1, false, false},
      {"nor are two, while nothing was learned", 25, 2, false, false},
      {"with a third it is", 25, 3, true, false},
      {"and with a fourth one may fail", 25, 4, true, true},
  };
  for (const Row& r : rows) {
    INFO(r.name);
    Keeper k = keeper_with(r.colonies, 1);
    add_batteries(k, 2, r.batteries);
    const PackBatteries b = packed(k).batteries;
    CHECK(b.full == r.batteries);
    CHECK(b.enough() == r.enough);
    CHECK(b.spare == r.spare);
    // The number needed is the least that is enough when all are full.
    CHECK((r.batteries >= b.full_needed) == r.enough);
  }
}

TEST_CASE("a battery that came out of a vaporizer waits for its charger") {
  Keeper k = keeper_with(25, 1);
  add_batteries(k, 2, 2);
  k.does(at(1), BatteryChanged{vaporizer(1), battery(1), false});
  k.does(at(2), BatteryChanged{vaporizer(1), battery(2), true});
  const PackBatteries b = packed(k).batteries;
  CHECK(b.full == 1);
  CHECK(b.to_charge == std::vector<KitId>{battery(1)});
  CHECK_FALSE(b.enough());
}

TEST_CASE("a vaporizer is due when the evening would pass its number of settings") {
  struct Row {
    std::string name;
    std::optional<int> clean_every;
    int done, colonies, vaporizers;
    bool due;
  };
  const Row rows[] = {
      {"common practice, up to it", {}, 44, 6, 1, false},
      {"common practice, one beyond", {}, 45, 6, 1, true},
      {"two share the colonies", {}, 45, 10, 2, false},
      {"the keeper's own number", 20, 15, 6, 1, true},
      {"a larger one", 200, 60, 6, 1, false},
  };
  for (const Row& r : rows) {
    INFO(r.name);
    Keeper k = keeper_with(r.colonies, 1, r.vaporizers);
    if (r.clean_every) k.does(at(1), SetupChanged{.clean_every = r.clean_every});
    k.farm.kit.at(vaporizer(1)).settings_since_clean = r.done;
    CHECK(packed(k).to_clean.empty() == !r.due);
  }
}

TEST_CASE("hours of a cartridge are left only when its maker's hours were entered") {
  Keeper k = on_a_walk(1, 1);
  k.does(at(10), set(1)), k.does(at(100), cover(1, 1)), k.does(at(3610), uncover(1));
  CHECK_FALSE(packed(k).respirators[0].left);
  k.does(at(3700), SetupChanged{.cartridge_hours = 8});
  CHECK(packed(k).respirators[0].left == std::chrono::hours(7));
  CHECK(respirator_words(k.farm, packed(k).respirators[0]).find("7 h 0 min left of the 8 h") !=
        std::string::npos);
  k.does(at(3800), SetupChanged{.cartridge_hours = 1});
  CHECK(packed(k).respirators[0].left == Ms{0});
  CHECK_FALSE(packed(k).ready());
}

TEST_CASE("what is missing is said, and nothing else") {
  struct Row {
    std::string name;
    std::optional<KitId> retired;
    std::string missing;  // empty: ready
  };
  const Row rows[] = {
      {"all there", {}, ""},
      {"no cloth", cloth(1), "no cloth"},
      {"no vaporizer", vaporizer(1), "no vaporizer"},
      {"no respirator", respirator(), "no respirator"},
      {"no battery", battery(1), "no charged battery, 1 is needed"},
  };
  for (const Row& r : rows) {
    INFO(r.name);
    Keeper k = keeper_with(3, 1);
    if (r.retired) k.does(at(1), KitChanged{*r.retired, {}, true});
    const PackList list = packed(k);
    CHECK(list.ready() == r.missing.empty());
    if (!list.ready()) CHECK(list.missing == std::vector<std::string>{r.missing});
    CHECK(list.headline == (r.missing.empty()
                                ? "For 3 colonies: 8 g of acid, 1 full battery, 1 cloth. All of "
                                  "it is there."
                                : "Not ready for 3 colonies: " + r.missing + "."));
  }
}

TEST_CASE("one more cloth is worth a sentence from a minute on") {
  PackList list;
  CHECK(cloth_words(list).empty());
  list.cloth_saves = Seconds{59};
  CHECK(cloth_words(list).empty());
  list.cloth_saves = Seconds{400};
  CHECK(cloth_words(list) == "One more cloth would save 7 min of the evening.");
}

TEST_CASE("a yard without colonies needs nothing") {
  const Keeper k = keeper_with(0, 1);
  const PackList list = packed(k);
  CHECK(list.acid.needed == Mass{});
  CHECK(list.batteries.full_needed == 0);
  CHECK(list.ready());
}

}  // namespace pack_test
