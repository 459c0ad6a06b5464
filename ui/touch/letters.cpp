#include <algorithm>
#include <cmath>

#include "ui/touch/buttons.h"
#include "ui/touch/entry.h"
#include "ui/touch/paint.h"
#include "ui/touch/show.h"
#include "ui/touch/text.h"

namespace ui {

namespace {

const std::string& page_of(const Words& words, Keys keys) {
  if (keys == Keys::Signs) return words.sign_keys;
  return keys == Keys::Upper ? words.upper_keys : words.lower_keys;
}

void add(const TextAsk& ask, TextEntry& entry, const std::string& letter) {
  if (letters_of(entry.typed).size() >= ask.most) return;
  entry.typed += letter;
  if (entry.keys == Keys::Upper) entry.keys = Keys::Lower;
}

void remove_last(TextEntry& entry) {
  const auto all = letters_of(entry.typed);
  if (!all.empty()) entry.typed.resize(entry.typed.size() - all.back().size());
  if (entry.typed.empty() && entry.keys == Keys::Lower) entry.keys = Keys::Upper;
}

void draw_field(Touch& t, const Rect& rect, const TextAsk& ask, const std::string& typed) {
  Rect room = panel(t, rect);
  const auto count = letters_of(typed).size();
  const std::string left = std::to_string(count) + "/" + std::to_string(ask.most);
  const float wide = text_width(t, left, Size::Small) + 1;
  text(t, cut_right(room, wide, t.mm(2)), left,
       {.size = Size::Small, .align = Align::Right, .quiet = true});
  room.w -= t.mm(2);  // for the caret
  const Rect box = text(t, room, typed, {.size = Size::Large});
  const float caret_h = std::min(room.h, line_height(t, Size::Large));
  const float x = typed.empty() ? room.x : box.right() + t.mm(0.6F);
  const float y = typed.empty() ? room.mid_y() - caret_h / 2 : box.bottom() - caret_h;
  paint_rect(t.draw(), {x, y, t.mm(0.8F), caret_h}, t.theme()[Surface::Panel].ink);
}

void draw_keys(Touch& t, const Rect& rect, const TextAsk& ask, TextEntry& entry, std::size_t cols) {
  const auto keys = letters_of(page_of(t.words(), entry.keys));
  const std::size_t lines = std::max<std::size_t>(1, (keys.size() + cols - 1) / cols);
  // One height for all pages, so that keys do not jump when the page turns.
  const std::size_t most =
      std::max(lines, (letters_of(t.words().upper_keys).size() + cols - 1) / cols);
  const std::vector<Rect> cells = grid(rect, cols, most, t.gap());
  for (std::size_t i = 0; i < keys.size(); ++i) {
    if (button(t, cells[i], keys[i], {.large = true})) add(ask, entry, keys[i]);
  }
}

Entry draw_ends(Touch& t, const std::vector<Rect>& cells, const TextAsk& ask, TextEntry& entry) {
  const Words& w = t.words();
  const bool signs = entry.keys == Keys::Signs;
  const bool upper = entry.keys == Keys::Upper;
  const Surface shift = upper ? Surface::Chosen : Surface::Button;
  if (button(t, cells[0], w.shift, {.enabled = !signs, .surface = shift})) {
    entry.keys = upper ? Keys::Lower : Keys::Upper;
  }
  if (button(t, cells[1], signs ? w.letters : w.digits, {.id = "keys"})) {
    entry.keys = signs ? Keys::Lower : Keys::Signs;
  }
  if (button(t, cells[2], w.space)) add(ask, entry, " ");
  if (button(t, cells[3], w.remove, {.enabled = !entry.typed.empty()})) remove_last(entry);
  if (button(t, cells[4], w.cancel)) return Entry::Cancelled;
  const bool ready = ask.may_be_empty || entry.typed.find_first_not_of(' ') != std::string::npos;
  const bool done = button(t, cells[5], w.ok, {.enabled = ready, .surface = Surface::Action});
  return done ? Entry::Done : Entry::Open;
}

}  // namespace

Entry letters(Touch& t, const Rect& rect, const TextAsk& ask, TextEntry& entry) {
  Rect room = rect;
  const bool wide = rect.w > rect.h;
  if (!ask.title.empty()) text(t, cut_top(room, line_height(t, Size::Body), t.mm(1)), ask.title);
  draw_field(t, cut_top(room, t.mm(15), t.gap()), ask, entry.typed);
  const std::size_t cols = std::max<std::size_t>(1, fit_count(room.w, t.least_w(), t.gap()));
  const Rect strip = cut_bottom(room, wide ? t.least_h() : 2 * t.least_h() + t.gap(), t.gap());
  draw_keys(t, room, ask, entry, std::min<std::size_t>(cols, 10));
  return draw_ends(t, grid(strip, wide ? 6 : 3, wide ? 1 : 2, t.gap()), ask, entry);
}

}  // namespace ui
