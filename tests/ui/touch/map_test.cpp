#include "ui/touch/map.h"

#include <doctest/doctest.h>

#include <set>

#include "tests/support/rig.h"
#include "tests/support/scenes.h"

namespace map_test {

using test::Rig;
using ui::Rect;
using ui::Tile;

namespace {

constexpr float kW = 118, kH = 89, kGap = 18;  // 20 x 15 mm and 3 mm at 5.88 px/mm
const Rect kRoom{20, 20, 1240, 640};

// Every tile once, all inside, all large enough and far enough apart.
void check_plan(const ui::MapPlan& plan, std::size_t tiles) {
  std::set<std::size_t> seen;
  for (const ui::MapPage& page : plan.pages) {
    for (std::size_t i = 0; i < page.spots.size(); ++i) {
      const ui::Spot& a = page.spots[i];
      CHECK(seen.insert(a.tile).second);
      CHECK(ui::holds(kRoom, a.rect));
      CHECK(a.rect.w >= kW - 0.5F);
      CHECK(a.rect.h >= kH - 0.5F);
      for (std::size_t j = i + 1; j < page.spots.size(); ++j) {
        CHECK(ui::gap_between(a.rect, page.spots[j].rect) >= kGap - 0.6F);
      }
    }
  }
  CHECK(seen.size() == tiles);
}

std::vector<Tile> line_of(int n, float dx, float dy) {
  std::vector<Tile> tiles;
  for (int i = 0; i < n; ++i) {
    const auto k = static_cast<float>(i);
    tiles.push_back({std::to_string(i), k * dx, k * dy});
  }
  return tiles;
}

}  // namespace

TEST_CASE("every colony has a tile a glove can hit, in yards of every shape") {
  struct Row {
    std::string name;
    std::vector<Tile> tiles;
    std::size_t pages;
  };
  const Row rows[] = {{"one", line_of(1, 0, 0), 1},
                      {"a row of nine", line_of(9, 1, 0), 1},
                      {"a row of twenty", line_of(20, 1, 0), 1},
                      {"a slope of thirty", line_of(30, 1, 0.4F), 1},
                      {"all on one spot", line_of(25, 0, 0), 1},
                      {"twelve in rows", test::sample_yard(12, 4), 1},
                      {"forty in rows of ten", test::sample_yard(40, 10), 1},
                      {"forty in rows of eight", test::sample_yard(40, 8), 1},
                      {"forty in a file", line_of(40, 0, 1), 1},
                      {"a hundred", test::sample_yard(100, 10), 3}};
  for (const Row& r : rows) {
    INFO(r.name);
    const auto plan = ui::plan_map(kRoom, r.tiles, kW, kH, kGap);
    check_plan(plan, r.tiles.size());
    CHECK(plan.pages.size() == r.pages);
  }
}

TEST_CASE("where there is room, tiles stand at their true places in one scale") {
  const std::vector<Tile> tiles = {{"a", 0, 0}, {"b", 10, 0}, {"c", 0, 4}};
  const auto plan = ui::plan_map(kRoom, tiles, kW, kH, kGap);
  REQUIRE(plan.true_places);
  const auto& s = plan.pages[0].spots;
  const float across = (s[1].rect.x - s[0].rect.x) / 10;
  const float down = (s[2].rect.y - s[0].rect.y) / 4;
  CHECK(across == doctest::Approx(down).epsilon(0.01));
}

TEST_CASE("on the grid, rows stay rows and keep their order from left to right") {
  const auto tiles = test::sample_yard(36, 9);
  const auto plan = ui::plan_map({0, 0, 1220, 460}, tiles, kW, kH, kGap);
  REQUIRE(plan.pages.size() == 1);
  std::vector<Rect> at(tiles.size());
  for (const ui::Spot& spot : plan.pages[0].spots) at[spot.tile] = spot.rect;
  for (std::size_t i = 0; i + 1 < tiles.size(); ++i) {
    INFO(i);
    if (i % 9 != 8) CHECK(at[i].x < at[i + 1].x);
    if (i + 9 < tiles.size()) CHECK(at[i].y < at[i + 9].y);
  }
}

TEST_CASE("no colonies: no pages, and the widget does nothing") {
  CHECK(ui::plan_map(kRoom, {}, kW, kH, kGap).pages.empty());
  Rig rig;
  int page = 0;
  rig.show([&](ui::Touch& t) { CHECK_FALSE(ui::map(t, kRoom, page, {})); });
}

TEST_CASE("a tap on a tile of any page tells its colony") {
  Rig rig;
  int page = 0;
  std::optional<std::size_t> tapped;
  const auto tiles = test::sample_yard(100, 10);
  rig.show([&](ui::Touch& t) {
    if (const auto i = ui::map(t, kRoom, page, tiles)) tapped = i;
  });
  rig.tap("B1");
  CHECK(tapped == 0);
  rig.tap("NEXT");
  rig.tap("NEXT");
  rig.tap("B100");
  CHECK(tapped == 99);
}

}  // namespace map_test
