#include "ui/screens/base/pictured.h"

#include <algorithm>
#include <cmath>

#include "ui/touch/face.h"
#include "ui/touch/paint.h"

namespace ui {

namespace {

void draw_picture(Touch& t, const Rect& rect, Icon icon, const PicturedLook& look, Colour ink) {
  if (look.instead.empty()) return draw_icon(t.draw(), icon, rect, ink);
  const Role role = role_for(t, look.instead, rect.w, Role::Title, Role::Body);
  say(t, rect, look.instead, role, {.align = Align::Center, .tight = true});
}

// Picture and words side by side, in the middle.
void draw_beside(Touch& t, Rect room, std::string_view label, Icon icon, const PicturedLook& look,
                 Colour ink) {
  const float side = std::min(room.h, t.mm(7));
  const float words = std::min(wide(t, label, Role::Body), room.w - side - t.mm(2));
  const float all = side + t.mm(2) + words;
  room = inset(room, std::max(0.0F, (room.w - all) / 2), 0);
  draw_picture(t, cut_left(room, side, t.mm(2)), icon, look, ink);
  text(t, room, label, {.size = Size::Body});
}

void draw_over(Touch& t, Rect room, std::string_view label, Icon icon, const PicturedLook& look,
               Colour ink) {
  const float line = high(t, Role::Small);
  const float gap = t.mm(0.8F);
  const float side = std::min(room.h - line - gap, t.mm(8));
  room = inset(room, 0, std::max(0.0F, (room.h - side - gap - line) / 2));
  draw_picture(t, cut_top(room, side, gap), icon, look, ink);
  say(t, room, label, Role::Small, {.align = Align::Center, .place = Place::Top});
}

bool lies(const Touch& t, const Rect& rect) { return rect.w > t.mm(29) && rect.h < t.mm(20); }

// How much of a hold has passed, along the button's lower edge.
void draw_held(Touch& t, Rect& room, Surface surface, float part) {
  progress(t, cut_bottom(room, t.mm(3), t.mm(1)), part, surface);
}

void draw_words(Touch& t, Rect room, std::string_view label, const ActLook& look, Align align) {
  const Role role = role_for(t, label, room.w, Role::Headline, Role::Title);
  const bool wraps = wide(t, label, role) > room.w;
  const float upper = high(t, role) * (wraps ? 2.0F : 1.0F);
  float lower = 0;
  if (!look.line.empty()) lower = text_height(t, look.line, room.w, Size::Body);
  const float gap = lower > 0 ? t.mm(1) : 0;
  room = inset(room, 0, std::max(0.0F, (room.h - upper - gap - lower) / 2));
  say(t, cut_top(room, upper, gap), label, role, {.align = align});
  if (lower > 0)
    say(t, room, look.line, Role::Body, {.align = align, .place = Place::Top, .quiet = true});
}

}  // namespace

bool pictured_button(Touch& t, const Rect& rect, std::string_view label, Icon icon,
                     const PicturedLook& look) {
  const Hit hit = t.target(label, rect, look.enabled, false, look.id);
  const Surface surface = face_of(hit, look.enabled, look.surface);
  draw_face(t, rect, surface, look.enabled, look.chosen);
  const Colour ink = t.theme()[surface].ink;
  const Rect room = inset(rect, t.mm(0.8F), t.mm(1));
  if (lies(t, rect))
    draw_beside(t, room, label, icon, look, ink);
  else
    draw_over(t, room, label, icon, look, ink);
  return hit.tapped;
}

bool act_button(Touch& t, const Rect& rect, std::string_view label, const ActLook& look) {
  const Hit hit = t.target(label, rect, look.enabled, look.hold, look.id);
  const Surface face = look.hold ? look.surface : face_of(hit, look.enabled, look.surface);
  const Surface surface = look.enabled ? face : Surface::Disabled;
  draw_face(t, rect, surface, look.enabled, true);
  Rect room = inset(rect, step(t), t.mm(2));
  if (look.hold && look.enabled) draw_held(t, room, surface, hit.held);
  const bool upright = rect.h > rect.w * 0.6F;
  if (look.picture) {
    const float side = upright ? std::min(room.h * 0.5F, room.w)
                               : std::min({room.h, t.mm(look.picture_mm), room.w * 0.4F});
    const Rect box = upright ? cut_top(room, side, t.mm(2)) : cut_left(room, side, step(t));
    look.picture(inset(box, side * 0.06F), t.theme()[surface].ink);
    if (!upright && room.w > side * 2 + t.mm(60)) room.w -= side * 0.5F;
  }
  draw_words(t, room, label, look, Align::Center);
  return hit.tapped;
}

bool empty_page(Touch& t, const Rect& whole, Icon icon, std::string_view words,
                std::string_view act) {
  Rect room = whole;
  const Rect foot = cut_bottom(room, t.mm(30), t.gap());
  t.fill(room, Surface::Panel, t.mm(0.3F));
  const float lines = text_height(t, words, room.w - step(t, 4), size_of(Role::Title)) + 1;
  const float side = std::min(t.mm(34), room.h * 0.4F);
  Rect inner = inset(room, step(t, 2), std::max(0.0F, (room.h - side - step(t) - lines) / 2));
  draw_icon(t.draw(), icon, cut_top(inner, side, step(t)), t.theme()[Surface::Panel].quiet);
  inner.h = std::max(inner.h, lines);
  say(t, inner, words, Role::Title, {.align = Align::Center, .place = Place::Top});
  const auto picture = [&](const Rect& box, Colour ink) { draw_icon(t.draw(), icon, box, ink); };
  return act_button(t, foot, act, {.picture_mm = 16, .picture = picture});
}

}  // namespace ui
