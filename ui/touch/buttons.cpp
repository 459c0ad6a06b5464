#include "ui/touch/buttons.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "ui/touch/face.h"
#include "ui/touch/paint.h"
#include "ui/touch/show.h"
#include "ui/touch/text.h"

namespace ui {

namespace {

Rect room_in(const Touch& t, const Rect& rect) { return inset(rect, t.mm(1.6F), t.mm(1)); }

Block block_of(std::string_view label, const ButtonLook& look) {
  return {label, look.second, look.mark, look.large ? Size::Large : Size::Body, Size::Small};
}

// The trough of a hold and how far it is filled.
void draw_hold(Touch& t, const Rect& trough, Surface surface, float part) {
  const Skin& skin = t.theme()[surface];
  paint_frame(t.draw(), trough, skin.ink, t.mm(0.35F));
  Rect full = trough;
  paint_rect(t.draw(), cut_left(full, trough.w * part), skin.ink);
}

std::size_t choice_columns(const Touch& t, std::span<const std::string> options, float width) {
  float least = t.least_w();
  for (const std::string& option : options) {
    least = std::max(least, text_width(t, option, Size::Small) + t.mm(14));
  }
  return std::clamp<std::size_t>(fit_count(width, least, t.gap()), 1,
                                 std::max<std::size_t>(1, options.size()));
}

}  // namespace

bool button(Touch& t, const Rect& rect, std::string_view label, const ButtonLook& look) {
  const Hit hit = t.target(label, rect, look.enabled, false, look.id);
  draw_face(t, rect, face_of(hit, look.enabled, look.surface), look.enabled);
  draw_block(t, room_in(t, rect), block_of(label, look));
  return hit.tapped;
}

bool action_button(Touch& t, const Rect& rect, std::string_view label, std::string_view line,
                   bool enabled, std::string_view id) {
  const Hit hit = t.target(label, rect, enabled, false, id);
  draw_face(t, rect, face_of(hit, enabled, Surface::Action), enabled, true);
  draw_block(t, inset(rect, t.mm(4), t.mm(2)), {label, line, Mark::None, Size::Huge, Size::Body});
  return hit.tapped;
}

bool hold_button(Touch& t, const Rect& rect, std::string_view label, const ButtonLook& look) {
  const Hit hit = t.target(label, rect, look.enabled, true, look.id);
  const Surface surface = look.enabled ? look.surface : Surface::Disabled;
  draw_face(t, rect, surface, look.enabled);
  Rect room = room_in(t, rect);
  const Rect trough = cut_bottom(room, t.mm(2.4F), t.mm(0.6F));
  draw_hold(t, trough, surface, hit.held);
  Block block = block_of(label, look);
  if (block.second.empty()) block.second = t.words().hold;
  draw_block(t, room, block);
  return hit.tapped;
}

std::optional<int> choice(Touch& t, const Rect& rect, std::span<const std::string> options,
                          int chosen, bool enabled) {
  const std::size_t cols = choice_columns(t, options, rect.w);
  const std::size_t lines = (options.size() + cols - 1) / cols;
  const std::vector<Rect> cells = grid(rect, cols, lines, t.gap());
  std::optional<int> tapped;
  for (std::size_t i = 0; i < options.size(); ++i) {
    const bool is_chosen = static_cast<int>(i) == chosen;
    const Hit hit = t.target(options[i], cells[i], enabled);
    const Surface surface = is_chosen ? Surface::Chosen : Surface::Button;
    draw_face(t, cells[i], face_of(hit, enabled, surface), enabled, is_chosen);
    draw_block(t, room_in(t, cells[i]), {options[i], {}, is_chosen ? Mark::Check : Mark::None});
    if (hit.tapped) tapped = static_cast<int>(i);
  }
  return tapped;
}

float choice_height(const Touch& t, std::span<const std::string> options, float width) {
  const std::size_t cols = choice_columns(t, options, width);
  const auto lines = static_cast<float>((options.size() + cols - 1) / cols);
  return lines * t.least_h() + std::max(0.0F, lines - 1) * t.gap();
}

bool check_row(Touch& t, const Rect& rect, std::string_view label, bool checked,
               std::string_view second, bool enabled) {
  const Hit hit = t.target(label, rect, enabled);
  const Surface surface = face_of(hit, enabled, checked ? Surface::Good : Surface::Button);
  draw_face(t, rect, surface, enabled, checked);
  Rect room = inset(rect, t.mm(3), t.mm(1));
  const float side = std::min(t.mm(11), room.h);
  const Rect left = cut_left(room, side, t.mm(4));
  const Rect box{left.x, left.mid_y() - side / 2, side, side};
  const Colour ink = t.theme()[surface].ink;
  paint_frame(t.draw(), box, ink, t.mm(0.5F));
  if (checked) draw_mark(t.draw(), Mark::Check, inset(box, side * 0.16F), ink);
  draw_lines(t, room, label, second, Size::Large);
  return hit.tapped;
}

int stepper(Touch& t, const Rect& rect, std::string_view label, std::string_view value,
            bool can_less, bool can_more) {
  Rect room = rect;
  const float side = std::max(t.least_w(), std::min(rect.h * 1.4F, t.mm(26)));
  const auto side_button = [&](const Rect& r, const char* sign, Mark mark, bool enabled) {
    const Hit hit = t.target(fmt::format("{} {}", label, sign), r, enabled);
    draw_face(t, r, face_of(hit, enabled, Surface::Button), enabled);
    draw_block(t, room_in(t, r), {{}, {}, mark});
    return hit.tapped;
  };
  const bool less = side_button(cut_left(room, side, t.gap()), "-", Mark::Less, can_less);
  const bool more = side_button(cut_right(room, side, t.gap()), "+", Mark::More, can_more);
  room = panel(t, room);
  const Rect top = cut_top(room, std::min(line_height(t, Size::Small), room.h * 0.4F));
  text(t, top, label, {.size = Size::Small, .align = Align::Center, .quiet = true});
  text(t, room, value, {.size = Size::Large, .align = Align::Center});
  return less ? -1 : more ? 1 : 0;
}

}  // namespace ui
