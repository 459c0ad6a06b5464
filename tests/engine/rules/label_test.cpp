#include "engine/rules/label.h"

#include <doctest/doctest.h>

namespace label_test {

using namespace engine;

namespace {

LabelRules per_box(std::int64_t mg, std::optional<std::int64_t> most_box,
                   std::optional<std::int64_t> most_colony) {
  LabelRules r;
  r.per_brood_box = Mass{mg};
  if (most_box) r.most_per_brood_box = Mass{*most_box};
  if (most_colony) r.most_per_colony = Mass{*most_colony};
  return r;
}

}  // namespace

TEST_CASE("the prompt is grams per brood box times boxes, never above the label's most") {
  struct Row {
    std::string name;
    LabelRules rules;
    int boxes;
    std::int64_t mg;
  };
  const Row rows[] = {
      // Common practice, no published source: 1 g for each brood box.
      {"one box", per_box(1000, {}, {}), 1, 1000},
      {"two boxes", per_box(1000, {}, {}), 2, 2000},
      {"bounded by the colony's most", per_box(1000, {}, 2000), 3, 2000},
      {"bounded by the box's most", per_box(1500, 1000, {}), 2, 2000},
      {"the lower of two mosts", per_box(2300, 4000, 2300), 2, 2300},
  };
  for (const Row& r : rows) {
    INFO(r.name);
    CHECK(prompted_dose(r.rules, r.boxes) == Mass{r.mg});
  }
}

TEST_CASE("a dose is over the label only above the most, to the milligram") {
  const LabelRules r = per_box(1000, 1000, {});
  CHECK_FALSE(over_label(r, Mass{1999}, 2));
  CHECK_FALSE(over_label(r, Mass{2000}, 2));
  CHECK(over_label(r, Mass{2001}, 2));
  CHECK_FALSE(over_label(per_box(1000, {}, {}), Mass{9000}, 1));
}

TEST_CASE("dihydrate and anhydrous differ by the crystal water") {
  // Molar masses 126.065 and 90.034 g/mol (CAS 6153-56-6, 144-62-7): 1 g dihydrate = 0.714 g.
  CHECK(anhydrous(Mass{1000}) == Mass{714});
  LabelRules r = per_box(1000, {}, {});
  r.basis = Basis::Anhydrous;
  CHECK(dihydrate(r, Mass{1000}) == Mass{1400});
}

TEST_CASE("a product's grams become dihydrate by its strength") {
  // UK summary of product characteristics of 2015: 886 mg dihydrate = 632.7 mg anhydrous a gram.
  LabelRules r = per_box(2300, {}, 2300);
  r.basis = Basis::Product;
  CHECK_FALSE(dihydrate(r, Mass{1000}));
  r.dihydrate_per_gram = Mass{886};
  CHECK(dihydrate(r, Mass{1000}) == Mass{886});
  CHECK(anhydrous(*dihydrate(r, Mass{1000})) == Mass{633});
  CHECK(dihydrate(r, Mass{2300}) == Mass{2038});
}

TEST_CASE("a profile that cannot be is named by field") {
  struct Row {
    std::string name;
    void (*spoil)(LabelRules&);
    std::string field;
  };
  const Row rows[] = {
      {"fine", [](LabelRules&) {}, ""},
      {"no grams", [](LabelRules& r) { r.per_brood_box = {}; }, "per_brood_box"},
      {"20 g is the edge", [](LabelRules& r) { r.per_brood_box = {20'000}; }, ""},
      {"harmful", [](LabelRules& r) { r.per_brood_box = {20'001}; }, "per_brood_box"},
      {"strength above all", [](LabelRules& r) { r.dihydrate_per_gram = Mass{1001}; },
       "dihydrate_per_gram"},
      {"negative days", [](LabelRules& r) { r.withdrawal_days = -1; }, "withdrawal_days"},
      {"no dwell", [](LabelRules& r) { r.dwell_goal = Seconds{0}; }, "dwell_goal"},
      {"least above goal", [](LabelRules& r) { r.seal_least = Seconds{601}; }, "seal_least"},
  };
  for (const Row& row : rows) {
    INFO(row.name);
    LabelRules r = per_box(1000, {}, {});
    row.spoil(r);
    const std::string wrong = what_is_wrong(r);
    CHECK(wrong.substr(0, wrong.find(':')) == row.field);
  }
}

// The trial gave 0, 5, 10 and 20 g to a colony, and 20 g did harm (Front. Bee Sci. 2024,
// 10.3389/frbee.2024.1442030).
TEST_CASE("no colony is prompted more than 10 g, whatever its boxes") {
  CHECK(prompted_dose(per_box(4000, {}, {}), 2) == Mass{8000});
  CHECK(prompted_dose(per_box(4000, {}, {}), 5) == kMostEntered);
}

TEST_CASE("what is loaded for a dose of anhydrous acid is the dihydrate") {
  LabelRules r = per_box(1000, {}, {});
  CHECK(dose_loaded(r, Mass{1000}) == Mass{1000});
  r.basis = Basis::Anhydrous;
  CHECK(dose_loaded(r, Mass{1000}) == Mass{1400});  // 126.065 / 90.034
}

}  // namespace label_test
