// Dot plots and lanes: rows of names with a shared scale under them.
#include <algorithm>

#include "ui/touch/lists.h"
#include "ui/touch/paint.h"
#include "ui/touch/plot_parts.h"
#include "ui/touch/show.h"

namespace ui {

namespace {

constexpr float kDotRow = 8, kLaneRow = 9;  // mm

template <class Rows, class Word>
float column_width(const Touch& t, const Rows& rows, Word word, float most) {
  float w = 0;
  for (const auto& row : rows) w = std::max(w, text_width(t, word(row), Size::Small));
  return w > 0 ? std::min(w + t.mm(2), most) : 0;
}

void draw_interval(Touch& t, const Rect& lane, const Scale& x, const Interval& row) {
  const Colour ink = t.theme()[t.surface_at(lane)].ink;
  const float from = place(x, row.low, lane.x, lane.right());
  const float to = place(x, row.high, lane.x, lane.right());
  const float mid = lane.mid_y(), end = t.mm(1.4F);
  stroke_path(t, std::vector<PathPoint>{{from, mid}, {to, mid}},
              dash_of(t, row.wide ? Stroke::Dashed : Stroke::Solid), t.mm(0.7F), ink);
  for (const float at : {from, to})
    paint_rect(t.draw(), {at - t.mm(0.3F), mid - end, t.mm(0.6F), 2 * end}, ink);
  const float side = t.mm(5), at = place(x, row.at, lane.x, lane.right());
  if (row.mark != Mark::Dot)
    t.fill({at - side * 0.4F, mid - side * 0.4F, side * 0.8F, side * 0.8F}, t.surface_at(lane));
  draw_mark(t.draw(), row.mark, {at - side / 2, mid - side / 2, side, side}, ink);
}

void draw_upright(Touch& t, const Rect& room, const Rect& above, const Scale& x,
                  const Threshold& limit) {
  const float at = place(x, limit.at, room.x, room.right());
  stroke_path(t, std::vector<PathPoint>{{at, above.bottom()}, {at, room.bottom()}},
              dash_of(t, Stroke::Dashed), t.mm(0.6F), t.theme()[t.surface_at(room)].ink);
  const float w = std::min(text_width(t, limit.words, Size::Small) + 2, above.w);
  const float left = std::clamp(at - w / 2, above.x, above.right() - w);
  text(t, {left, above.y, w, above.h}, limit.words,
       {.size = Size::Small, .align = Align::Center, .tight = true});
}

void draw_pattern(Touch& t, const Rect& bar, const LaneBar& b, Colour ink) {
  const float step = t.mm(2), thin = std::max(1.0F, t.mm(0.25F));
  if (b.pattern == Pattern::Slanted) paint_hatch(t.draw(), bar, ink, step, thin);
  for (float x = bar.x + step; b.pattern == Pattern::Upright && x < bar.right(); x += step)
    paint_rect(t.draw(), {x, bar.y, thin, bar.h}, ink);
  for (float y = bar.y + step; b.pattern == Pattern::Level && y < bar.bottom(); y += step)
    paint_rect(t.draw(), {bar.x, y, bar.w, thin}, ink);
}

void draw_bar(Touch& t, const Rect& lane, const Scale& x, const LaneBar& b) {
  const float from = place(x, b.from, lane.x, lane.right());
  const float to = place(x, b.to, lane.x, lane.right());
  // Never too narrow for its mark, which says what the bar is.
  const float wide = std::max(to - from, t.mm(b.mark == Mark::None ? 1.2F : 5.2F));
  const Rect bar{(from + to - wide) / 2, lane.y, wide, lane.h};
  t.fill(bar, b.surface, t.mm(0.4F));
  const Skin& skin = t.theme()[b.surface];
  Rect room = inset(bar, t.mm(0.6F));
  const float side = std::min({t.mm(4.6F), room.h, room.w});
  if (b.mark != Mark::None) draw_mark(t.draw(), b.mark, cut_left(room, side, t.mm(0.8F)), skin.ink);
  const float word = text_width(t, b.word, Size::Small) + 2;
  if (!b.word.empty() && word <= room.w)
    text(t, cut_left(room, word, t.mm(0.8F)), b.word, {.size = Size::Small, .tight = true});
  draw_pattern(t, room, b, skin.quiet);
}

}  // namespace

void dot_plot(Touch& t, const Rect& rect, int& page, const DotPlot& plot) {
  Rect room = rect;
  const float other = x_axis_height(t) + moments_height(t) + t.mm(5);
  const auto fit = [&](float high) {
    return std::max<std::size_t>(1, fit_count(high - other, t.mm(kDotRow), 0));
  };
  std::size_t each = fit(room.h);
  if (each < plot.rows.size()) {
    const Rect foot = cut_bottom(room, t.least_h(), t.gap());
    each = fit(room.h);
    pager(t, foot, page, static_cast<int>((plot.rows.size() + each - 1) / each));
  } else {
    page = 0;
  }
  const std::size_t first = std::min(static_cast<std::size_t>(page) * each, plot.rows.size());
  const auto shown = std::span(plot.rows).subspan(first, std::min(each, plot.rows.size() - first));
  room = panel(t, room);
  const Rect above = cut_top(room, plot.threshold ? moments_height(t) : 0);
  Rect below = cut_bottom(room, x_axis_height(t));
  room.h = std::min(room.h, t.mm(12) * static_cast<float>(shown.size()));
  below.y = room.bottom();
  const Rect names = cut_left(room,
                              column_width(
                                  t, shown, [](auto& r) { return r.name; }, room.w * 0.3F),
                              t.mm(1));
  const Rect words = cut_right(room,
                               column_width(
                                   t, shown, [](auto& r) { return r.word; }, room.w * 0.35F),
                               t.mm(2));
  room.x += t.mm(2), room.w -= t.mm(2);
  below.x = names.x;
  draw_x_axis(t, room, below, plot.x, plot.x_title);
  if (plot.threshold) draw_upright(t, room, above, plot.x, *plot.threshold);
  const std::vector<Rect> lines = rows(room, shown.size(), 0);
  for (std::size_t i = 0; i < shown.size(); ++i) {
    const Rect& line = lines[i];
    text(t, {names.x, line.y, names.w, line.h}, shown[i].name, {.size = Size::Small});
    draw_interval(t, line, plot.x, shown[i]);
    text(t, {words.x, line.y, words.w, line.h}, shown[i].word, {.size = Size::Small});
  }
}

float lanes_height(const Touch& t, std::size_t lanes, bool moments) {
  return x_axis_height(t) + (moments ? moments_height(t) : 0) + t.mm(4) +
         t.mm(kLaneRow) * static_cast<float>(lanes);
}

void lanes(Touch& t, const Rect& rect, const Lanes& plot) {
  Rect room = panel(t, rect);
  Rect above = plot.moments.empty() ? Rect{} : cut_top(room, moments_height(t));
  const Rect below = cut_bottom(room, x_axis_height(t));
  const Rect names = cut_left(room,
                              column_width(
                                  t, plot.lanes, [](auto& l) { return l.name; }, room.w * 0.3F),
                              t.mm(2));
  above.x = room.x, above.w = room.w;
  draw_x_axis(t, room, below, plot.x, plot.x_title);
  const std::vector<Rect> lines = rows(room, plot.lanes.size(), 0);
  for (std::size_t i = 0; i < lines.size(); ++i) {
    text(t, {names.x, lines[i].y, names.w, lines[i].h}, plot.lanes[i].name, {.size = Size::Small});
    const float low = std::min(t.mm(1), lines[i].h * 0.15F);
    for (const LaneBar& bar : plot.lanes[i].bars) draw_bar(t, inset(lines[i], 0, low), plot.x, bar);
  }
  draw_moments(t, room, above, plot.x, plot.moments);
}

}  // namespace ui
