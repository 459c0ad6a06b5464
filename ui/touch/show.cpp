#include "ui/touch/show.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "ui/touch/face.h"
#include "ui/touch/paint.h"

namespace ui {

namespace {

Surface surface_of(Run run, bool half) {
  if (run == Run::Running) return Surface::Panel;
  if (run == Run::Due) return Surface::Warning;
  return half ? Surface::Alarm : Surface::Flash;
}

const std::string& word_of(const Words& words, Run run) {
  if (run == Run::Running) return words.running;
  return run == Run::Due ? words.due : words.over;
}

float part_of(const Countdown& c) {
  if (c.total.count() <= 0) return 1;
  const auto passed = static_cast<float>((c.total - c.left).count());
  return std::clamp(passed / static_cast<float>(c.total.count()), 0.0F, 1.0F);
}

// Label left, state word right with its mark; in a narrow box the state stands under the label.
void draw_title(Touch& t, Rect& room, const Countdown& c, Run run) {
  const std::string& word = word_of(t.words(), run);
  const float line = line_height(t, Size::Body);
  const float wide = text_width(t, word, Size::Small) + 1;
  const float side = line * 0.8F;
  const bool narrow = text_width(t, c.label, Size::Small) + wide + side + t.mm(3) > room.w;
  Rect first = cut_top(room, line);
  Rect state = narrow ? cut_top(room, line) : cut_right(first, wide + side + t.mm(3));
  text(t, first, c.label);
  if (!narrow) cut_left(state, t.mm(2));
  const Rect box = cut_left(state, side, t.mm(1));
  draw_mark(t.draw(), run == Run::Running ? Mark::Clock : Mark::Warning, box,
            t.theme()[t.surface_at(box)].ink);
  text(t, state, word, {.size = Size::Small});
}

}  // namespace

Rect panel(Touch& t, const Rect& rect, Surface surface) {
  draw_face(t, rect, surface, true);
  return inset(rect, t.mm(2));
}

float tag_width(const Touch& t, std::string_view word, Mark mark) {
  const float side = mark == Mark::None ? 0 : line_height(t, Size::Small) + t.mm(1.4F);
  return t.mm(3.2F) + side + std::ceil(text_width(t, word, Size::Small)) + 1;
}

Rect tag(Touch& t, const Rect& rect, std::string_view word, Mark mark, Surface surface) {
  const float line = line_height(t, Size::Small);
  const float high = std::min(rect.h, line + t.mm(2));
  const Rect box{rect.x, rect.mid_y() - high / 2, std::min(rect.w, tag_width(t, word, mark)), high};
  draw_face(t, box, surface, true);
  Rect room = inset(box, t.mm(1.6F), 0);
  if (mark != Mark::None) {
    draw_mark(t.draw(), mark, cut_left(room, line, t.mm(1.4F)), t.theme()[surface].ink);
  }
  text(t, room, word, {.size = Size::Small});
  return box;
}

void fact(Touch& t, const Rect& rect, std::string_view label, std::string_view value) {
  Rect room = rect;
  const float wide = std::min(text_width(t, value, Size::Body) + 1, rect.w * 0.62F);
  text(t, cut_right(room, wide, t.mm(2)), value, {.align = Align::Right});
  text(t, room, label, {.size = Size::Body, .quiet = true});
}

void progress(Touch& t, const Rect& rect, float part, Surface surface) {
  const Skin& skin = t.theme()[surface];
  paint_frame(t.draw(), rect, skin.quiet, t.mm(0.3F));
  Rect room = inset(rect, t.mm(0.7F));
  paint_rect(t.draw(), cut_left(room, room.w * std::clamp(part, 0.0F, 1.0F)), skin.ink);
}

std::string clock_text(std::chrono::seconds left) {
  const char* sign = left.count() < 0 ? "+" : "";
  const long long s = std::abs(static_cast<long long>(left.count()));
  if (s >= 3600) return fmt::format("{}{}:{:02}:{:02}", sign, s / 3600, s / 60 % 60, s % 60);
  return fmt::format("{}{}:{:02}", sign, s / 60, s % 60);
}

Run run_of(const Countdown& c) {
  if (c.left.count() > 0) return Run::Running;
  return -c.left > c.grace ? Run::Over : Run::Due;
}

bool flash_half(Touch& t) {
  const std::int64_t now = t.frame().now_ms;
  t.wake_in(1000 - now % 1000);
  return now / 1000 % 2 == 0;
}

void countdown(Touch& t, const Rect& rect, const Countdown& c) {
  const Run run = run_of(c);
  const Surface surface = surface_of(run, run == Run::Over && flash_half(t));
  draw_face(t, rect, surface, true, run != Run::Running);
  Rect room = inset(rect, t.mm(2.5F), t.mm(1.6F));
  draw_title(t, room, c, run);
  const Rect bar = cut_bottom(room, std::min(t.mm(3), room.h * 0.15F), t.mm(0.8F));
  progress(t, bar, part_of(c), surface);
  text(t, room, clock_text(c.left), {.size = Size::Clock, .align = Align::Center, .tight = true});
}

void flash_bar(Touch& t, const Rect& rect, std::string_view words) {
  const Surface surface = flash_half(t) ? Surface::Alarm : Surface::Flash;
  draw_face(t, rect, surface, true, true);
  Rect room = inset(rect, t.mm(3), t.mm(1));
  const Colour ink = t.theme()[surface].ink;
  const float side = std::min(room.h, t.mm(10));
  draw_mark(t.draw(), Mark::Warning, cut_left(room, side, t.mm(2)), ink);
  draw_mark(t.draw(), Mark::Warning, cut_right(room, side, t.mm(2)), ink);
  text(t, room, words, {.size = Size::Large, .align = Align::Center});
}

}  // namespace ui
