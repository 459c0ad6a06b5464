// ui/touch/plot_parts.h -- what all charts are drawn with. Internal to ui/touch.
#pragma once
#include "ui/touch/plot.h"
#include "ui/touch/text.h"

namespace ui {

// Ticks and title under `room`, a fine line up from each tick; `ink` is the axis.
void draw_x_axis(Touch& t, const Rect& room, const Rect& below, const Scale& x,
                 std::string_view title);
[[nodiscard]] float x_axis_height(const Touch& t);
// Head of a moment: mark and word in `above`, its line through `room`.
void draw_moments(Touch& t, const Rect& room, const Rect& above, const Scale& x,
                  std::span<const Moment> moments);
[[nodiscard]] float moments_height(const Touch& t);

struct Dash {
  float on = 0, off = 0;  // px; off 0: solid
};
[[nodiscard]] Dash dash_of(const Touch& t, Stroke stroke);
// Along the points (px), the dashes running on over the corners.
struct PathPoint {
  float x = 0, y = 0;
};
void stroke_path(Touch& t, std::span<const PathPoint> path, Dash dash, float width, Colour ink);

// Where the values of a chart stand in its inside (px).
struct PlotPen {
  Touch& t;
  const Rect& in;
  const Chart& c;
  [[nodiscard]] float x(double v) const { return place(c.x, v, in.x, in.right()); }
  [[nodiscard]] float y(double v) const { return place(c.y, v, in.bottom(), in.y); }
};
// The band as strokes that hold their place on the screen; Upright and Level, else nothing.
void fill_band(const PlotPen& p, std::span<const BandPoint> band, Pattern pattern, Colour ink);

}  // namespace ui
