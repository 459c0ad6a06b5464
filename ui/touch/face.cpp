#include "ui/touch/face.h"

#include <algorithm>
#include <cmath>

namespace ui {

Surface face_of(const Hit& hit, bool enabled, Surface asked) {
  if (!enabled) return Surface::Disabled;
  return hit.pressed ? Surface::Pressed : asked;
}

void draw_face(Touch& t, const Rect& rect, Surface surface, bool framed, bool thick) {
  const float edge = std::max(1.0F, std::round(t.mm(thick ? 0.9F : 0.35F)));
  t.fill(rect, surface, framed ? edge : 0, true);
}

void draw_lines(Touch& t, const Rect& room, std::string_view title, std::string_view second,
                Size size) {
  if (second.empty()) {
    text(t, room, title, {.size = size});
    return;
  }
  // What the second line needs, what the title needs, and the rest shared above and below.
  const float lower = std::min(text_height(t, second, room.w, Size::Small),
                               std::max(0.0F, room.h - line_height(t, Size::Small)));
  const float upper = std::min(text_height(t, title, room.w, size), room.h - lower);
  Rect group = inset(room, 0, (room.h - upper - lower) / 2);
  text(t, cut_top(group, upper), title, {.size = size, .place = Place::Bottom});
  text(t, group, second, {.size = Size::Small, .place = Place::Top, .quiet = true});
}

void draw_block(Touch& t, const Rect& room, const Block& block) {
  Rect label = room;
  if (!block.second.empty()) {
    const float lower =
        std::min(text_height(t, block.second, room.w, block.second_size), room.h * 0.45F);
    const float upper = std::min(text_height(t, block.label, room.w, block.size), room.h - lower);
    label = inset(room, 0, std::max(0.0F, (room.h - upper - lower) / 2));
    text(t, cut_bottom(label, lower), block.second,
         {.size = block.second_size, .align = Align::Center, .place = Place::Top, .quiet = true});
  }
  if (block.mark != Mark::None) {
    const float side = std::min({t.mm(8), label.h * 0.8F, room.w * 0.3F});
    const float gap = block.label.empty() ? 0 : t.mm(1.8F);
    const float words = std::min(text_width(t, block.label, block.size), room.w - side - gap);
    label = inset(label, std::max(0.0F, (room.w - side - gap - words) / 2), 0);
    const Rect box = cut_left(label, side, gap);
    draw_mark(t.draw(), block.mark, box, t.theme()[t.surface_at(room)].ink);
    label.w += 1;  // the width was measured in floats
  }
  text(t, label, block.label, {.size = block.size, .align = Align::Center});
}

}  // namespace ui
