#include "ui/touch/plot.h"

#include <doctest/doctest.h>
#include <imgui.h>

#include <algorithm>
#include <cmath>
#include <string>

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

TEST_CASE("a chart of years is drawn with no more than a few thousand corners") {
  struct Row {
    std::string name;
    ui::Pattern pattern;
    int days;
  };
  const Row rows[] = {{"a season, level", ui::Pattern::Level, 200},
                      {"ten years, level", ui::Pattern::Level, 3650},
                      {"ten years, upright", ui::Pattern::Upright, 3650}};
  for (const Row& r : rows) {
    INFO(r.name);
    Rig rig;
    rig.show([&](ui::Touch& t) {
      ui::Chart c;
      c.x = ui::day_scale(0, r.days, 6, [](int day) { return std::to_string(day); });
      c.y = ui::number_scale(0, 15, 5);
      ui::Series s{.name = "no treatment", .pattern = r.pattern};
      for (int day = 0; day <= r.days; ++day) {
        const double mid = 7 + 6 * std::sin(day / 300.0);
        s.line.push_back({day * 1.0, mid});
        s.band.push_back({day * 1.0, mid - 5, mid + 5});
      }
      c.series = {s};
      ui::chart(t, t.screen(), c);
    });
    CHECK(rig.touch.draw()->VtxBuffer.Size < 16'000);
  }
}

TEST_CASE("a level stroke begins and ends where the band crosses its height") {
  Rig rig;
  rig.show([](ui::Touch& t) {
    ui::Chart c;
    c.x = ui::number_scale(0, 10, 2), c.y = ui::number_scale(0, 10, 2);
    ui::Series s{.pattern = ui::Pattern::Level};
    s.band = {{0, 0, 0}, {10, 0, 10}};  // a wedge: at half its height it begins half way
    c.series = {s};
    ui::chart(t, {0, 0, 1000, 600}, c);
  });
  // The strokes are the only rectangles in the quiet ink: four corners each, the left edge first.
  const auto quiet = rig.touch.theme()[ui::Surface::Panel].quiet;
  const unsigned ink = IM_COL32(quiet.r, quiet.g, quiet.b, 255);
  const auto& all = rig.touch.draw()->VtxBuffer;
  float longest = 0, shortest = 1e9F;
  int strokes = 0;
  for (int i = 0; i + 3 < all.Size; ++i) {
    const bool box = all[i].col == ink && all[i + 2].col == ink &&
                     all[i].pos.y == all[i + 1].pos.y && all[i + 1].pos.x == all[i + 2].pos.x &&
                     all[i + 2].pos.y - all[i].pos.y < 3;
    if (!box || all[i + 2].pos.y <= all[i].pos.y) continue;
    ++strokes;
    longest = std::max(longest, all[i + 1].pos.x - all[i].pos.x);
    shortest = std::min(shortest, all[i + 1].pos.x - all[i].pos.x);
  }
  CHECK(strokes > 20);
  CHECK(shortest < 60);
  CHECK(longest > 800);
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
