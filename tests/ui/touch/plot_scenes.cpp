// Sample charts, with invented numbers.
#include <array>
#include <cmath>
#include <string>

#include "tests/support/scenes.h"

namespace test {

namespace {

using ui::Mark;
using ui::Rect;
using ui::Touch;

std::string day(int n) { return std::to_string(n) + " Aug"; }

void expected(Touch& t) {
  ui::Chart c;
  c.x = ui::day_scale(1, 43, 7, [](int n) { return n <= 31 ? day(n) : day(n - 31); });
  c.y = ui::number_scale(0, 7.4, 5);
  c.x_title = "day", c.y_title = "mites on 100 bees (model)";
  ui::Series without{.name = "no treatment", .stroke = ui::Stroke::Dotted};
  ui::Series with{.name = "4 rounds", .stroke = ui::Stroke::Solid, .pattern = ui::Pattern::Upright};
  for (int n = 1; n <= 43; ++n) {
    without.line.push_back({n * 1.0, 3 * std::exp(0.021 * n)});
    const double low = 3 * std::exp(-0.02 * n), high = 3 + 0.01 * n;
    with.band.push_back({n * 1.0, low, high});
    with.line.push_back({n * 1.0, high});
  }
  c.series = {without, with};
  c.threshold = ui::Threshold{3, "threshold 3 on 100 bees"};
  for (const int n : {1, 6, 11, 16}) c.moments.push_back({n * 1.0, Mark::Vapor, ""});
  c.moments.push_back({30, Mark::Dot, "count"});
  Rect page = ui::inset(t.screen(), t.gap());
  ui::heading(t, ui::cut_top(page, t.least_h(), t.gap()), "Expected");
  ui::chart(t, page, c);
}

void dots(Touch& t) {
  ui::DotPlot p;
  p.x = ui::number_scale(0, 11, 6);
  p.x_title = "mites on 100 bees, 95 % interval";
  p.threshold = ui::Threshold{3, "threshold 3"};
  for (int i = 1; i <= 23; ++i) {
    const double at = 0.3 * (i * 7 % 23);
    p.rows.push_back({"B" + std::to_string(i), at * 0.5, at, at * 1.6 + 0.4,
                      at > 5 ? Mark::Warning : Mark::Dot, at > 5 ? "treat" : "count again",
                      i % 5 == 0});
  }
  static int page = 0;
  ui::dot_plot(t, ui::inset(t.screen(), t.gap()), page, p);
}

void cloths(Touch& t) {
  ui::Lanes p;
  p.x = ui::number_scale(0, 60, 7);
  p.x_title = "minutes";
  constexpr std::array patterns = {ui::Pattern::None, ui::Pattern::Slanted, ui::Pattern::Upright,
                                   ui::Pattern::Level};
  for (int i = 0; i < 4; ++i) {
    ui::Lane lane{"Cloth " + std::to_string(i + 1), {}};
    for (int k = 0; k < 4; ++k)
      lane.bars.push_back({k * 15.0 + i, k * 15.0 + i + 11, "B" + std::to_string(k * 4 + i),
                           Mark::Cloth, k < 2 ? ui::Surface::Good : ui::Surface::Waiting,
                           patterns[static_cast<std::size_t>(i)]});
    p.lanes.push_back(lane);
  }
  p.moments = {{22, Mark::Clock, "now"}};
  Rect page = ui::inset(t.screen(), t.gap());
  page.h = ui::lanes_height(t, 4, true);
  ui::lanes(t, page, p);
}

}  // namespace

const std::vector<Scene>& plot_scenes() {
  static const std::vector<Scene> all = {
      {"chart", expected}, {"dot-plot", dots}, {"lanes", cloths}};
  return all;
}

}  // namespace test
