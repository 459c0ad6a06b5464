#include "engine/guide/foresee.h"

#include <doctest/doctest.h>

namespace foresee_test {

using namespace engine;

namespace {

// Colonies two metres apart in a row, the gate at the first; dwell 90, seal 600.
OrderCase row_of(int colonies, int cloths) {
  OrderCase c;
  c.walk_mps = 1.1;
  c.cloths = cloths;
  c.seal_s = 600;
  c.handling = {20, 10, 6};
  for (int i = 0; i < colonies; ++i)
    c.sites.push_back({.id = std::to_string(i + 1), .at = {2.0 * i, 0}, .dwell_s = 90});
  return c;
}

constexpr Seconds kLeast{180};

}  // namespace

TEST_CASE("the whole seal is kept while the light lasts") {
  const OrderCase c = row_of(5, 2);
  const Foreseen whole = foresee(c, kLeast, std::nullopt);
  CHECK(whole.wish == SealWish::Whole);
  CHECK(whole.seal == Seconds{600});
  CHECK(foresee(c, kLeast, whole.plan.finish_s + 1).seal == Seconds{600});
  CHECK(foresee(c, kLeast, whole.plan.finish_s + 1).wish == SealWish::Whole);
}

TEST_CASE("less light, a shorter seal, and it ends in time") {
  const OrderCase c = row_of(5, 2);
  const double whole = foresee(c, kLeast, std::nullopt).plan.finish_s;
  Seconds before{600};
  for (const double light : {whole - 60, whole - 240, whole - 420}) {
    const Foreseen f = foresee(c, kLeast, light);
    INFO(light);
    CHECK(f.wish == SealWish::ByDusk);
    CHECK(f.shortened);
    CHECK(f.plan.finish_s <= light);
    CHECK(f.seal >= kLeast);
    CHECK(f.seal < before);
    before = f.seal;
  }
}

TEST_CASE("where not even the least seal ends in time it is planned all the same") {
  const Foreseen f = foresee(row_of(5, 2), kLeast, 300.0);
  CHECK(f.seal == kLeast);
  CHECK(f.plan.finish_s > 300);
  CHECK(f.plan.steps.size() == 15);
}

TEST_CASE("not waiting takes no longer than with a cloth for each colony") {
  const Foreseen unhurried = foresee(row_of(5, 5), SealWish::Whole, kLeast, {});
  const Foreseen f = foresee(row_of(5, 2), SealWish::NoWaiting, kLeast, {});
  CHECK(f.plan.finish_s <= unhurried.plan.finish_s + 1e-6);
  CHECK(f.seal < Seconds{600});
  CHECK(f.seal >= kLeast);
  const Foreseen enough = foresee(row_of(4, 4), SealWish::NoWaiting, kLeast, {});
  CHECK_FALSE(enough.shortened);
}

TEST_CASE("the best buy is the last cloth that saves a minute") {
  const std::vector<ClothRow> rows = {{1, 6000, 60},  {2, 3600, 120}, {3, 2800, 240},
                                      {4, 2400, 360}, {5, 2350, 480}, {6, 2350, 600}};
  struct Row {
    std::string name;
    int own;
    int cloths;
    std::string words;
  };
  const Row table[] = {
      {"one", 1, 4,
       "Best buy: 4 cloths, 60 min sooner than with 1; one more saves less than a minute."},
      {"three", 3, 4,
       "Best buy: 4 cloths, 7 min sooner than with 3; one more saves less than a minute."},
      {"four", 4, 4, "Your 4 cloths are enough: one more saves less than a minute."},
      {"the last", 6, 6, "Your 6 cloths are enough: one more saves nothing."}};
  for (const Row& r : table) {
    INFO(r.name);
    const auto buy = best_buy(rows, r.own);
    REQUIRE(buy);
    CHECK(buy->cloths == r.cloths);
    CHECK(words(*buy, r.own) == r.words);
  }
  CHECK_FALSE(best_buy(rows, 7));
}

TEST_CASE("one more cloth saves what the table says, and nothing where no cloth is waited for") {
  const OrderCase c = row_of(6, 2);
  const auto rows = cloth_table(c, 2, 3, OrderEffort::Quick);
  REQUIRE(rows.size() == 2);
  CHECK(one_more_cloth(c).count() ==
        doctest::Approx(rows[0].finish_s - rows[1].finish_s).epsilon(0.01));
  CHECK(one_more_cloth(c) > Seconds{60});
  CHECK(one_more_cloth(row_of(6, 6)) == Seconds{0});
}

}  // namespace foresee_test
