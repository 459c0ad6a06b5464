#include "ui/touch/plot_parts.h"

#include <imgui.h>

#include <algorithm>
#include <cmath>

#include "ui/touch/paint.h"

namespace ui {

namespace {

// The words of every n-th tick, n the least with which neighbours stay apart.
std::size_t labelled_every(const Touch& t, const Rect& room, const Scale& x) {
  float widest = 0;
  for (const Tick& tick : x.ticks)
    widest = std::max(widest, text_width(t, tick.label, Size::Small));
  const std::size_t n = x.ticks.size();
  for (std::size_t every = 1; every < n; ++every) {
    const float apart = place(x, x.ticks[every].at, 0, room.w) - place(x, x.ticks[0].at, 0, room.w);
    if (apart >= widest + t.mm(2)) return every;
  }
  return std::max<std::size_t>(1, n);
}

}  // namespace

float x_axis_height(const Touch& t) { return 2 * line_height(t, Size::Small) + t.mm(2); }

void draw_x_axis(Touch& t, const Rect& room, const Rect& below, const Scale& x,
                 std::string_view title) {
  const Skin& skin = t.theme()[t.surface_at(room)];
  const float line = line_height(t, Size::Small);
  const std::size_t every = labelled_every(t, room, x);
  float free_from = below.x;
  for (std::size_t i = 0; i < x.ticks.size(); ++i) {
    const float at = place(x, x.ticks[i].at, room.x, room.right());
    const bool named = i % every == 0;
    paint_rect(t.draw(), {at - 0.5F, room.y, 1, room.h + t.mm(named ? 1.2F : 0.6F)}, skin.edge);
    if (!named) continue;
    const float w = text_width(t, x.ticks[i].label, Size::Small) + 2;
    const float left = std::clamp(at - w / 2, below.x, std::max(below.x, below.right() - w));
    if (left < free_from) continue;  // pushed in from the edge, onto the one before
    text(t, {left, below.y + t.mm(1.2F), w, line}, x.ticks[i].label,
         {.size = Size::Small, .align = Align::Center, .tight = true});
    free_from = left + w + t.mm(1);
  }
  paint_rect(t.draw(), {room.x, room.bottom() - t.mm(0.2F), room.w, t.mm(0.4F)}, skin.ink);
  text(t, {below.x, below.y + line + t.mm(1.6F), below.w, line}, title,
       {.size = Size::Small, .align = Align::Right, .quiet = true});
}

float moments_height(const Touch& t) { return t.mm(6); }

void draw_moments(Touch& t, const Rect& room, const Rect& above, const Scale& x,
                  std::span<const Moment> moments) {
  const Skin& skin = t.theme()[t.surface_at(room)];
  const float side = t.mm(4.6F);
  float free_from = above.x;
  for (const Moment& m : moments) {
    const float at = place(x, m.x, room.x, room.right());
    paint_rect(t.draw(), {at - t.mm(0.3F), room.y, t.mm(0.6F), room.h}, skin.ink);
    const float wanted = m.mark == Mark::None ? at : at - side / 2;
    float left = std::clamp(std::max(wanted, free_from), above.x, above.right() - side);
    const float word_from = free_from;
    if (m.mark != Mark::None) {
      draw_mark(t.draw(), m.mark, {left, above.y, side, side}, skin.ink);
      left += side + t.mm(1);
      free_from = left;
    }
    if (m.word.empty()) continue;
    const float w = text_width(t, m.word, Size::Small) + 2;
    float start = m.mark == Mark::None ? left - w / 2 : left;
    float least = free_from;
    if (m.mark != Mark::None && start + w > above.right()) {  // at the edge: on its other side
      start = left - side - t.mm(2) - w;
      least = word_from;
    }
    if (start < least || start + w > above.right()) continue;  // no room beside its neighbour
    text(t, {start, above.y, w, side}, m.word, {.size = Size::Small, .tight = true});
    free_from = std::max(free_from, start + w + t.mm(1));
  }
}

Dash dash_of(const Touch& t, Stroke stroke) {
  if (stroke == Stroke::Dashed) return {t.mm(3), t.mm(1.8F)};
  if (stroke == Stroke::Dotted) return {t.mm(0.8F), t.mm(1.4F)};
  return {1, 0};
}

void stroke_path(Touch& t, std::span<const PathPoint> path, Dash dash, float width, Colour ink) {
  const unsigned colour = packed(ink);
  if (dash.off <= 0) {
    std::vector<ImVec2> points;
    for (const PathPoint& p : path) points.emplace_back(p.x, p.y);
    t.draw()->AddPolyline(points.data(), static_cast<int>(points.size()), colour, 0, width);
    return;
  }
  float into = 0;  // of the pattern on + off
  for (std::size_t i = 1; i < path.size(); ++i) {
    const PathPoint a = path[i - 1], b = path[i];
    const float length = std::hypot(b.x - a.x, b.y - a.y);
    if (length <= 0) continue;
    const auto at = [&](float s) {
      return ImVec2(a.x + (b.x - a.x) * s / length, a.y + (b.y - a.y) * s / length);
    };
    for (float s = 0; s < length;) {
      const bool on = into < dash.on;
      const float step = std::min(length - s, (on ? dash.on : dash.on + dash.off) - into);
      if (on) t.draw()->AddLine(at(s), at(s + step), colour, width);
      s += std::max(step, 0.01F);
      into = std::fmod(into + std::max(step, 0.01F), dash.on + dash.off);
    }
  }
}

}  // namespace ui
