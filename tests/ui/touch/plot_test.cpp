#include "ui/touch/plot.h"

#include <doctest/doctest.h>

#include "tests/support/rig.h"
#include "tests/support/scenes.h"

namespace plot_test {

using test::Rig;

namespace {

void show(Rig& rig, const std::string& name) {
  for (const test::Scene& s : test::plot_scenes())
    if (s.name == name) rig.show(s.draw);
}

}  // namespace

TEST_CASE("a chart says its units, its threshold and what each line is") {
  Rig rig;
  show(rig, "chart");
  for (const char* words : {"mites on 100 bees (model)", "threshold 3 on 100 bees", "no treatment",
                            "4 rounds", "count", "1 Aug"}) {
    INFO(std::string(words));
    CHECK(rig.sees(words));
  }
  CHECK(rig.touch.targets().empty());
}

TEST_CASE("a dot plot of many rows goes in pages, each with scale and threshold") {
  Rig rig;
  show(rig, "dot-plot");
  CHECK(rig.sees("B1"));
  CHECK_FALSE(rig.sees("B23"));
  rig.tap("NEXT");
  CHECK(rig.sees("threshold 3"));
  CHECK(rig.sees("mites on 100 bees, 95 % interval"));
  CHECK_FALSE(rig.sees("B1 "));
}

TEST_CASE("a bar too short for its word leaves it out instead of cutting it") {
  Rig rig;
  rig.show([](ui::Touch& t) {
    ui::Lanes p;
    p.x = ui::number_scale(0, 100, 5);
    p.lanes = {{"Cloth 1", {{0, 50, "long enough"}, {60, 61, "far too long"}}}};
    ui::lanes(t, {0, 0, 600, ui::lanes_height(t, 1, false)}, p);
  });
  CHECK(rig.sees("long enough"));
  CHECK_FALSE(rig.sees("far too long"));
}

}  // namespace plot_test
