#include "ui/screens/base/drawing.h"

#include <imgui.h>

#include <algorithm>
#include <cmath>
#include <numbers>

#include "engine/walk/come_back.h"
#include "ui/screens/base/roles.h"

namespace ui {

namespace {

// Parts of a hive, in widths of its box.
constexpr float kBox = 0.42F, kSuper = 0.24F, kLidOver = 0.1F, kDoorWide = 0.36F, kDoorHigh = 0.1F;
constexpr float kRing = 0.085F;  // of the ring's diameter: how thick it is

float stack_high(int boxes, int supers) {
  return kBox * static_cast<float>(boxes) + kSuper * static_cast<float>(supers);
}

Colour ink_of(const Touch& t, HiveState state) {
  const Theme& theme = t.theme();
  if (state == HiveState::Next) return theme[Surface::Action].ground;
  return theme[surface_of(state)].edge;
}

Colour inside_of(const Touch& t, const Rect& rect, HiveState state) {
  const bool filled = state == HiveState::Done || state == HiveState::ComeBack;
  return t.theme()[filled ? surface_of(state) : t.surface_at(rect)].ground;
}

Rect middle(const Rect& rect, float w, float h) {
  return {rect.mid_x() - w / 2, rect.mid_y() - h / 2, w, h};
}

// What stands on the hive, apart from its ring.
void draw_sign(Touch& t, const Rect& hive, const HiveDrawing& d, const InkPen& pen) {
  const InkPen strong{pen.draw, t.theme()[surface_of(d.state)].ink, pen.width * 1.3F};
  const float side = hive.w * 0.5F;
  switch (d.state) {
    case HiveState::ToDo:
    case HiveState::Next:
      return;
    case HiveState::Vapor:
      if (d.rests) return;
      return draw_wisps(
          pen, {hive.x + hive.w * 0.2F, hive.y - hive.w * 0.62F, hive.w * 0.6F, hive.w * 0.42F});
    case HiveState::Covered: {
      const float w = std::max(hive.w * 0.62F, wide(t, d.cloth, Role::Small) + t.mm(1.4F));
      const float h = std::max(hive.w * 0.3F, tight_high(t, Role::Small) + t.mm(1));
      return draw_flap(t, {hive.mid_x() - w / 2, hive.bottom() - h * 0.75F, w, h}, d.cloth,
                       Surface::Waiting);
    }
    case HiveState::Done:
      return draw_tick(strong, middle(hive, side, side));
    case HiveState::ComeBack:
      return draw_icon(t.draw(), Icon::Again, middle(hive, side * 1.3F, side * 1.3F), strong.ink);
    case HiveState::Skipped:
      return draw_skip({pen.draw, t.theme()[Surface::Muted].ink, pen.width * 1.4F},
                       grown(hive, hive.w * 0.08F));
  }
}

bool has_ring(HiveState state) {
  return state == HiveState::Vapor || state == HiveState::Covered || state == HiveState::Next;
}

}  // namespace

HiveState hive_state(const engine::Walk& walk, const engine::Stop& stop) {
  switch (stop.phase) {
    case engine::Phase::UnderVapor:
      return HiveState::Vapor;
    case engine::Phase::Covered:
      return HiveState::Covered;
    case engine::Phase::PassedOver:
      return HiveState::Skipped;
    case engine::Phase::Done:
      return engine::reasons_to_come_back(walk, stop).empty() ? HiveState::Done
                                                              : HiveState::ComeBack;
    case engine::Phase::ToDo:
      break;
  }
  return HiveState::ToDo;
}

Surface surface_of(HiveState state) {
  switch (state) {
    case HiveState::ToDo:
    case HiveState::Skipped:
      return Surface::Muted;
    case HiveState::Next:
      return Surface::Action;
    case HiveState::Vapor:
      return Surface::Active;
    case HiveState::Covered:
      return Surface::Waiting;
    case HiveState::Done:
      return Surface::Good;
    case HiveState::ComeBack:
      return Surface::Warning;
  }
  return Surface::Muted;
}

Rect draw_boxes(const InkPen& pen, const Rect& rect, int boxes, int supers, const Colour* inside) {
  const int n = std::clamp(boxes, 1, 4), s = std::clamp(supers, 0, 4);
  const float tall = stack_high(n, s);
  const float w = std::min(rect.w / (1 + 2 * kLidOver), rect.h / (tall + 0.06F));
  const float x = rect.mid_x() - w / 2;
  float y = rect.bottom();
  for (int i = 0; i < n + s; ++i) {
    const float h = w * (i < n ? kBox : kSuper);
    y -= h;
    pen.box(x, y, w, h, w * 0.05F, inside);
  }
  const float door = w * kDoorWide, slot = w * kDoorHigh;
  pen.draw->AddRectFilled({rect.mid_x() - door / 2, rect.bottom() - slot - pen.width / 2},
                          {rect.mid_x() + door / 2, rect.bottom()},
                          IM_COL32(pen.ink.r, pen.ink.g, pen.ink.b, 255));
  pen.line(x - w * kLidOver, y, x + w * (1 + kLidOver), y);
  return {x - w * kLidOver, y, w * (1 + 2 * kLidOver), rect.bottom() - y};
}

void draw_hive(Touch& t, const Rect& rect, const HiveDrawing& d) {
  const float across = std::min(rect.w, rect.h);
  const bool ring = has_ring(d.state);
  const float thick = across * kRing;
  const Colour ink = ink_of(t, d.state);
  if (ring) {
    const Colour off = t.theme()[Surface::Page].edge;
    const float radius = (across - thick) / 2;
    const bool whole = d.state == HiveState::Next || d.due;
    draw_ring(t, rect.mid_x(), rect.mid_y(), radius, whole ? 1 : d.left, ink, off, thick);
  }
  // A hive of two boxes fills the ring; a taller one is drawn smaller, as it would be seen.
  const float w = across * 0.66F;
  const float h = std::min(w * stack_high(std::clamp(d.boxes, 1, 4), std::clamp(d.supers, 0, 4)),
                           across * 0.6F);
  const float lift = d.state == HiveState::Vapor ? across * 0.08F : 0;
  const Rect stand{rect.mid_x() - w / 2, rect.mid_y() - across * 0.25F + lift, w, across * 0.5F};
  const InkPen pen{t.draw(), ink, std::max(1.5F, across * 0.035F)};
  const Colour inside = inside_of(t, rect, d.state);
  const Rect hive =
      draw_boxes(pen, {stand.x, stand.bottom() - h, stand.w, h}, d.boxes, d.supers, &inside);
  draw_sign(t, hive, d, pen);
}

void draw_ring(Touch& t, float x, float y, float radius, float left, Colour on, Colour off,
               float width) {
  const float part = std::clamp(left, 0.0F, 1.0F);
  const InkPen trough{t.draw(), off, width};
  const InkPen full{t.draw(), on, width};
  if (part < 1) trough.ring(x, y, radius);
  if (part >= 1) return full.ring(x, y, radius);
  // Whole degrees, so that a second that changes nothing to see draws nothing anew.
  const float gone = std::round((1 - part) * 360);
  if (gone < 360) full.arc(x, y, radius, -90 + gone, 270);
}

void draw_flap(Touch& t, const Rect& rect, std::string_view number, Surface surface) {
  const Skin& skin = t.theme()[surface];
  t.fill(rect, surface, std::max(1.0F, t.mm(0.3F)));
  const Rect room = inset(rect, t.mm(0.4F), 0);
  if (wide(t, number, Role::Small) <= room.w + 2)
    say(t, room, number, Role::Small, {.align = Align::Center, .tight = true});
  else
    draw_icon(t.draw(), Icon::Cloth, room, skin.ink);
}

void draw_wisps(const InkPen& pen, const Rect& rect) {
  for (const float at : {0.15F, 0.5F, 0.85F}) {
    ImVec2 points[9];
    for (int i = 0; i < 9; ++i) {
      const float down = static_cast<float>(i) / 8;
      const float sway = std::sin(down * 2 * std::numbers::pi_v<float>) * rect.w * 0.09F;
      points[i] = {rect.x + rect.w * at + sway, rect.y + rect.h * down};
    }
    pen.stroke(points);
  }
}

void draw_tick(const InkPen& pen, const Rect& rect) {
  const ImVec2 points[] = {{rect.x, rect.y + rect.h * 0.52F},
                           {rect.x + rect.w * 0.36F, rect.y + rect.h * 0.88F},
                           {rect.right(), rect.y + rect.h * 0.14F}};
  pen.stroke(points);
}

void draw_skip(const InkPen& pen, const Rect& rect) {
  pen.line(rect.x, rect.bottom(), rect.right(), rect.y);
}

void draw_wind(const InkPen& pen, const Rect& rect, int from_deg) {
  const float a = static_cast<float>(from_deg + 180) * std::numbers::pi_v<float> / 180;
  const float r = std::min(rect.w, rect.h) / 2;
  const auto at = [&](float along, float across) {
    return ImVec2{rect.mid_x() + r * (along * std::sin(a) + across * std::cos(a)),
                  rect.mid_y() - r * (along * std::cos(a) - across * std::sin(a))};
  };
  // Two halves, since a shape with a dent cannot be filled at once.
  const ImVec2 left[] = {at(1, 0), at(-0.8F, -0.6F), at(-0.45F, 0)};
  const ImVec2 right[] = {at(1, 0), at(-0.45F, 0), at(-0.8F, 0.6F)};
  pen.area(left);
  pen.area(right);
}

void draw_way(const InkPen& pen, float x0, float y0, float x1, float y1, float keep) {
  const float length = std::hypot(x1 - x0, y1 - y0);
  const float pitch = pen.width * 2.6F;
  for (float at = keep; at <= length - keep; at += pitch)
    pen.disc(x0 + (x1 - x0) * at / length, y0 + (y1 - y0) * at / length, pen.width / 2);
}

void draw_way(const InkPen& pen, const Rect& from, const Rect& to) {
  const float dx = to.mid_x() - from.mid_x(), dy = to.mid_y() - from.mid_y();
  const float length = std::hypot(dx, dy);
  if (length < 1) return;
  // How far it is from a rectangle's middle to its edge in that direction.
  const auto edge = [&](const Rect& r) {
    const float across = std::abs(dx) > 0 ? r.w / 2 * length / std::abs(dx) : length;
    const float down = std::abs(dy) > 0 ? r.h / 2 * length / std::abs(dy) : length;
    return std::min(across, down);
  };
  const float begin = edge(from), end = length - edge(to);
  for (float at = begin; at <= end; at += pen.width * 2.6F)
    pen.disc(from.mid_x() + dx * at / length, from.mid_y() + dy * at / length, pen.width / 2);
}

}  // namespace ui
