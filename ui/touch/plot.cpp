#include "ui/touch/plot.h"

#include <algorithm>
#include <cmath>

#include "ui/touch/paint.h"
#include "ui/touch/plot_parts.h"
#include "ui/touch/show.h"

namespace ui {

namespace {

struct Room {
  Rect inside, above, below, left, right;
};

float widest(const Touch& t, const std::vector<Tick>& ticks) {
  float w = 0;
  for (const Tick& tick : ticks) w = std::max(w, text_width(t, tick.label, Size::Small));
  return w;
}

// Names at the ends of the lines have a column of their own, a third of the chart at most.
float names_width(const Touch& t, const Chart& c, float most) {
  float w = 0;
  for (const Series& s : c.series) w = std::max(w, text_width(t, s.name, Size::Small));
  return w > 0 ? std::min(w + t.mm(2), most) : t.mm(3);
}

Room lay_out(Touch& t, Rect rect, const Chart& c) {
  Room room;
  const Rect title = cut_top(rect, line_height(t, Size::Small), t.mm(1));
  text(t, title, c.y_title, {.size = Size::Small, .quiet = true});
  if (!c.moments.empty()) room.above = cut_top(rect, moments_height(t));
  room.below = cut_bottom(rect, x_axis_height(t));
  room.left = cut_left(rect, widest(t, c.y.ticks) + t.mm(1), t.mm(1));
  room.right = cut_right(rect, names_width(t, c, rect.w / 3), t.mm(1));
  room.inside = rect;
  room.above.x = rect.x, room.above.w = rect.w + room.right.w;
  return room;
}

void draw_y_axis(Touch& t, const Room& room, const Scale& y) {
  const Skin& skin = t.theme()[t.surface_at(room.inside)];
  const float line = line_height(t, Size::Small);
  for (const Tick& tick : y.ticks) {
    const float at = place(y, tick.at, room.inside.bottom(), room.inside.y);
    paint_rect(t.draw(), {room.inside.x, at - 0.5F, room.inside.w, 1}, skin.edge);
    text(t, {room.left.x, at - line / 2, room.left.w, line}, tick.label,
         {.size = Size::Small, .align = Align::Right, .tight = true});
  }
  paint_rect(t.draw(), {room.inside.x - t.mm(0.2F), room.inside.y, t.mm(0.4F), room.inside.h},
             skin.ink);
}

void draw_series(const PlotPen& p, const Series& s, const Skin& skin) {
  const auto path = [&](auto&& points, auto&& value, Dash dash, float width) {
    std::vector<PathPoint> out;
    // Points nearer than two pixels are one, so that a long period costs no more than a short one.
    for (std::size_t i = 0; i < points.size(); ++i) {
      const PathPoint at{p.x(points[i].x), p.y(value(points[i]))};
      const auto far = [&](const PathPoint& last) {
        return std::hypot(at.x - last.x, at.y - last.y) >= 2;
      };
      if (out.empty() || far(out.back()) || i + 1 == points.size()) out.push_back(at);
    }
    stroke_path(p.t, out, dash, width, skin.ink);
  };
  fill_band(p, s.band, s.pattern, skin.quiet);
  const float fine = p.t.mm(0.35F);
  path(
      s.band, [](const BandPoint& q) { return q.low; }, {1, 0}, fine);
  path(
      s.band, [](const BandPoint& q) { return q.high; }, {1, 0}, fine);
  path(
      s.line, [](const Point& q) { return q.y; }, dash_of(p.t, s.stroke), p.t.mm(0.8F));
}

double end_of(const Series& s) {
  if (!s.line.empty()) return s.line.back().y;
  return s.band.empty() ? 0 : (s.band.back().low + s.band.back().high) / 2;
}

void name_series(const PlotPen& p, const Rect& right) {
  std::vector<float> middles;
  float tallest = 0;
  for (const Series& s : p.c.series) {
    middles.push_back(p.y(end_of(s)));
    tallest = std::max(tallest, text_height(p.t, s.name, right.w, Size::Small));
  }
  const float high = tallest + p.t.mm(0.8F);
  const std::vector<float> at = spread(middles, high, right.y, right.bottom());
  for (std::size_t i = 0; i < at.size(); ++i)
    text(p.t, {right.x, at[i] - high / 2, right.w, high}, p.c.series[i].name,
         {.size = Size::Small});
}

// The words stand on the line, on a plate of the ground, at the left where lines begin low.
void draw_threshold(const PlotPen& p, const Threshold& limit, Surface ground) {
  const float y = p.y(limit.at);
  stroke_path(p.t, std::vector<PathPoint>{{p.in.x, y}, {p.in.right(), y}},
              dash_of(p.t, Stroke::Dashed), p.t.mm(0.6F), p.t.theme()[ground].ink);
  const float line = line_height(p.t, Size::Small);
  const float w = std::min(text_width(p.t, limit.words, Size::Small) + p.t.mm(2), p.in.w);
  const float top = std::clamp(y - line - p.t.mm(0.6F), p.in.y, p.in.bottom() - line);
  const Rect plate{p.in.x + p.t.mm(1), top, w, line};
  p.t.fill(plate, ground);
  text(p.t, plate, limit.words, {.size = Size::Small, .align = Align::Center, .tight = true});
}

}  // namespace

void chart(Touch& t, const Rect& rect, const Chart& c) {
  const Rect whole = panel(t, rect);
  const Surface ground = t.surface_at(whole);
  const Room room = lay_out(t, whole, c);
  draw_y_axis(t, room, c.y);
  draw_x_axis(t, room.inside, room.below, c.x, c.x_title);
  const PlotPen pen{t, room.inside, c};
  for (const Series& s : c.series) draw_series(pen, s, t.theme()[ground]);
  draw_moments(t, room.inside, room.above, c.x, c.moments);
  if (c.threshold) draw_threshold(pen, *c.threshold, ground);
  name_series(pen, room.right);
}

}  // namespace ui
