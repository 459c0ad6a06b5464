// ui/touch/plot.h -- charts that are only looked at: lines with bands, intervals, bars over time.
//
// Drawn for a person at arm's length in the sun: few ticks in words and units, lines told apart by
// stroke and by words at their ends, states by mark and pattern, never by colour alone. Everything
// stands in the ink of its surface, so the contrast is that of text. A chart holds no targets.
#pragma once
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "ui/touch/marks.h"
#include "ui/touch/plot_scale.h"
#include "ui/touch/touch.h"

namespace ui {

enum class Stroke { Solid, Dashed, Dotted };
enum class Pattern { None, Upright, Level, Slanted };  // Slanted: bars only

struct Point {
  double x = 0, y = 0;
};
struct BandPoint {
  double x = 0, low = 0, high = 0;
};

// A line, its band and what it is called at its end; either may be empty. Points rise in x.
struct Series {
  std::string name;
  Stroke stroke = Stroke::Solid;
  std::vector<Point> line{};
  Pattern pattern = Pattern::None;
  std::vector<BandPoint> band{};
};
// Across the chart at a value of y, with its words on it.
struct Threshold {
  double at = 0;
  std::string words;
};
// An upright line at x with a mark on its head and a word (may be empty) beside it; a list of them
// rises in x, and a word without room is left out.
struct Moment {
  double x = 0;
  Mark mark = Mark::None;
  std::string word{};
};
struct Chart {
  Scale x, y;
  std::string x_title, y_title;  // with the unit: "mites on 100 bees"
  std::vector<Series> series{};
  std::optional<Threshold> threshold{};
  std::vector<Moment> moments{};
};
void chart(Touch& t, const Rect& rect, const Chart& chart);

// One row of a dot plot: the mark at the value, a bar from low to high, the name at the left and a
// word at the right. The scale of all rows is shared and stands under them.
struct Interval {
  std::string name;
  double low = 0, at = 0, high = 0;
  Mark mark = Mark::Dot;
  std::string word{};  // "treat", "count again"
  bool wide = false;   // dashed: known only roughly
};
struct DotPlot {
  Scale x;
  std::string x_title;
  std::vector<Interval> rows;
  std::optional<Threshold> threshold{};  // upright here
};
// As many rows as fit, with a pager when that is not all; keeps `page`.
void dot_plot(Touch& t, const Rect& rect, int& page, const DotPlot& plot);

// Bars over time, one lane under the other: who does what when.
struct LaneBar {
  double from = 0, to = 0;
  std::string word{};  // inside, if it fits; else left out
  Mark mark = Mark::None;
  Surface surface = Surface::Active;
  Pattern pattern = Pattern::None;
};
struct Lane {
  std::string name;
  std::vector<LaneBar> bars;
};
struct Lanes {
  Scale x;
  std::string x_title;
  std::vector<Lane> lanes;
  std::vector<Moment> moments{};
};
void lanes(Touch& t, const Rect& rect, const Lanes& plot);
// Height at which every lane is easy to read.
[[nodiscard]] float lanes_height(const Touch& t, std::size_t lanes, bool moments);

}  // namespace ui
