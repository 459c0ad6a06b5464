#include "ui/touch/plot_scale.h"

#include <doctest/doctest.h>

#include <cmath>
#include <limits>

namespace plot_scale_test {

namespace {

std::string labels(const ui::Scale& s) {
  std::string all;
  for (const ui::Tick& t : s.ticks) all += t.label + " ";
  return all;
}

}  // namespace

TEST_CASE("ticks are round numbers, hold the values and are no more than asked for") {
  struct Row {
    std::string name;
    double low, high;
    std::size_t most;
    std::string want;
  };
  const double inf = std::numeric_limits<double>::infinity();
  const Row rows[] = {
      {"mites on 100 bees", 0, 7.36, 5, "0 2 4 6 8 "},
      {"exactly on a tick", 0, 8, 5, "0 2 4 6 8 "},
      {"below one", 0, 0.9, 6, "0.0 0.2 0.4 0.6 0.8 1.0 "},
      {"two are enough", 0, 99, 2, "0 100 "},
      {"not from zero", 34, 61, 4, "20 40 60 80 "},
      {"under zero", -3, 4, 6, "-4 -2 0 2 4 "},
      {"nothing to show", 5, 5, 5, "5.0 5.5 6.0 "},
      {"turned ends", 4, 0, 5, "0 1 2 3 4 "},
      {"not a number", std::nan(""), inf, 3, "0.0 0.5 1.0 "},
  };
  for (const Row& r : rows) {
    INFO(r.name);
    const ui::Scale s = ui::number_scale(r.low, r.high, r.most);
    CHECK(labels(s) == r.want);
    CHECK(s.ticks.size() <= r.most);
    CHECK(s.low < s.high);
  }
}

TEST_CASE("day ticks are whole days or weeks from the first day") {
  const auto name = [](int n) { return std::to_string(n); };
  CHECK(labels(ui::day_scale(0, 5, 7, name)) == "0 1 2 3 4 5 ");
  CHECK(labels(ui::day_scale(0, 10, 7, name)) == "0 2 4 6 8 10 ");
  CHECK(labels(ui::day_scale(-7, 30, 7, name)) == "-7 0 7 14 21 28 ");
  CHECK(labels(ui::day_scale(0, 90, 7, name)) == "0 14 28 42 56 70 84 ");
  CHECK(labels(ui::day_scale(3, 3, 7, name)) == "3 4 ");
}

TEST_CASE("a value beyond the scale stands at its end") {
  const ui::Scale s = ui::number_scale(0, 10, 5);
  CHECK(ui::place(s, 5, 100, 300) == 200);
  CHECK(ui::place(s, -1, 100, 300) == 100);
  CHECK(ui::place(s, 99, 300, 100) == 100);
}

TEST_CASE("labels make room for each other and stay inside") {
  const std::vector<float> close = {50, 52, 51};
  const auto at = ui::spread(close, 10, 0, 100);
  CHECK(at[0] == 50);
  CHECK(at[2] == 60);
  CHECK(at[1] == 70);
  const std::vector<float> low = {98, 99};
  const auto up = ui::spread(low, 10, 0, 100);
  CHECK(up[1] == 95);
  CHECK(up[0] == 85);
  CHECK(ui::spread({}, 10, 0, 100).empty());
}

}  // namespace plot_scale_test
