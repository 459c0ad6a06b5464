#include <algorithm>

#include "ui/touch/buttons.h"
#include "ui/touch/face.h"
#include "ui/touch/lists.h"
#include "ui/touch/paint.h"
#include "ui/touch/text.h"

namespace ui {

Rect dialog_panel(Touch& t, std::string_view title, Surface surface) {
  t.cover();
  t.fill(t.screen(), surface);
  Rect room = inset(t.screen(), t.mm(4));
  const float high = text_height(t, title, room.w, Size::Large);
  const Rect top = cut_top(room, std::min(high, room.h * 0.25F), t.mm(1.5F));
  text(t, top, title, {.size = Size::Large, .least = Size::Body});
  const Rect line = cut_top(room, t.mm(0.5F), t.mm(2.5F));
  paint_rect(t.draw(), line, t.theme()[surface].edge);
  return room;
}

std::optional<int> dialog(Touch& t, std::string_view title, std::string_view body,
                          std::span<const DialogButton> buttons) {
  Rect room = dialog_panel(t, title);
  const std::size_t n = std::max<std::size_t>(1, buttons.size());
  const bool across = !t.portrait() && n <= 4;
  const float each = t.least_h() * (across ? 1.6F : 1.2F);
  const float high =
      across ? each : each * static_cast<float>(n) + t.gap() * static_cast<float>(n - 1);
  const Rect strip = cut_bottom(room, high, t.mm(3));
  text(t, room, body, {.size = Size::Large, .place = Place::Top});
  const std::vector<Rect> cells = across ? columns(strip, n, t.gap()) : rows(strip, n, t.gap());
  std::optional<int> counted;
  for (std::size_t i = 0; i < buttons.size(); ++i) {
    const DialogButton& b = buttons[i];
    const ButtonLook look{.surface = b.surface, .large = true};
    const bool hit =
        b.hold ? hold_button(t, cells[i], b.label, look) : button(t, cells[i], b.label, look);
    if (hit) counted = static_cast<int>(i);
  }
  return counted;
}

}  // namespace ui
