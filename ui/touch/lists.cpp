#include "ui/touch/lists.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "ui/touch/buttons.h"
#include "ui/touch/face.h"
#include "ui/touch/paging.h"
#include "ui/touch/paint.h"
#include "ui/touch/show.h"
#include "ui/touch/text.h"

namespace ui {

namespace {

constexpr float kShownHigh = 11.5F;  // mm: a line of body type and one of small type under it

Rect row_room(const Touch& t, const Rect& cell) { return inset(cell, t.mm(3), t.mm(1)); }

float tag_room(const Touch& t, const Row& row, float width) {
  return std::min(width * 0.5F, tag_width(t, row.tag, row.mark));
}

// The room that tag or mark leave for the words.
Rect words_room(const Touch& t, const Row& row, const Rect& cell) {
  Rect room = row_room(t, cell);
  if (!row.tag.empty()) {
    cut_right(room, tag_room(t, row, room.w), t.mm(2));
  } else if (row.mark != Mark::None) {
    cut_right(room, t.mm(8), t.mm(2));
  }
  return room;
}

bool row_stands(const Touch& t, const Row& row, const Rect& cell, Size size) {
  const Rect room = words_room(t, row, cell);
  const float second = row.second.empty() ? 0 : text_height(t, row.second, room.w, Size::Small);
  return stands_in(t, row.title, room.w, room.h - second, size);
}

// Rows that are only looked at are low, unless one of them needs more.
float shown_high(const Touch& t, const Rect& rect, std::size_t count,
                 const std::function<Row(std::size_t)>& row_at) {
  const Rect low{rect.x, rect.y, rect.w, t.mm(kShownHigh)};
  for (std::size_t i = 0; i < count; ++i)
    if (!row_stands(t, row_at(i), low, Size::Small)) return t.least_h();
  return low.h;
}

Size title_size(const Touch& t, std::span<const Row> shown, const Rect& cell) {
  const Size most = cell.h < t.least_h() ? Size::Body : Size::Large;
  for (int size = static_cast<int>(most); size > static_cast<int>(Size::Small); --size) {
    const auto stands = [&](const Row& row) {
      return row_stands(t, row, cell, static_cast<Size>(size));
    };
    if (std::all_of(shown.begin(), shown.end(), stands)) return static_cast<Size>(size);
  }
  return Size::Small;
}

void draw_row(Touch& t, const Rect& rect, const Row& row, Surface surface, Size size, bool framed) {
  draw_face(t, rect, surface, framed, row.chosen);
  Rect room = row_room(t, rect);
  if (!row.tag.empty()) {
    const float wide = tag_room(t, row, room.w);
    tag(t, cut_right(room, wide, t.mm(2)), row.tag, row.mark, row.tag_surface);
  } else if (row.mark != Mark::None) {
    const Rect box = cut_right(room, t.mm(8), t.mm(2));
    draw_mark(t.draw(), row.mark, box, t.theme()[surface].ink);
  }
  draw_lines(t, words_room(t, row, rect), row.title, row.second, size);
}

std::size_t nav_columns(const Touch& t, std::span<const std::string> names, float width) {
  float least = t.least_w();
  for (const std::string& name : names) {
    least = std::max(least, text_width(t, name, Size::Small) + t.mm(4));
  }
  const std::size_t most = std::max<std::size_t>(1, names.size());
  const std::size_t fit = std::clamp<std::size_t>(fit_count(width, least, t.gap()), 1, most);
  const std::size_t lines = (most + fit - 1) / fit;
  return (most + lines - 1) / lines;  // lines of equal length
}

// A mark over the word.
void draw_call(Touch& t, Rect room, std::string_view word, Surface surface, Size size) {
  const Rect under = cut_bottom(room, line_height(t, size));
  text(t, inset(under, t.mm(1), 0), word, {.size = size, .align = Align::Center});
  const float high = std::min(room.h - t.mm(1.2F), t.mm(9));  // a larger one would shout
  const Rect box{room.x, room.mid_y() - high / 2, room.w, high};
  draw_mark(t.draw(), Mark::Warning, box, t.theme()[surface].ink);
}

std::size_t nav_columns_upright(const Touch& t, std::size_t names, float height) {
  const std::size_t fit = std::max<std::size_t>(1, fit_count(height, t.least_h(), t.gap()));
  return std::max<std::size_t>(1, (names + fit - 1) / fit);
}

}  // namespace

std::optional<std::size_t> list_rows(Touch& t, const Rect& rect, int& page,
                                     std::span<const Row> list, RowKind kind) {
  return list_rows(
      t, rect, page, list.size(), [&](std::size_t i) { return list[i]; }, kind);
}

std::optional<std::size_t> list_rows(Touch& t, const Rect& rect, int& page, std::size_t count,
                                     const std::function<Row(std::size_t)>& row_at, RowKind kind) {
  const float least = kind == RowKind::Tapped ? t.least_h() : shown_high(t, rect, count, row_at);
  const Paging p = paging(t, rect, count, 1, least, page);
  const std::vector<Rect> cells = rows(p.room, p.lines, t.gap());
  std::vector<Row> shown;
  for (std::size_t i = p.first; i < p.last; ++i) shown.push_back(row_at(i));
  const Size size = title_size(t, shown, cells.front());
  std::optional<std::size_t> tapped;
  for (std::size_t i = 0; i < shown.size(); ++i) {
    const Row& row = shown[i];
    const Rect& cell = cells[i];
    if (kind == RowKind::Shown) {
      draw_row(t, cell, row, row.chosen ? Surface::Chosen : Surface::Panel, size, true);
      continue;
    }
    const Hit hit = t.target(row.title, cell, row.enabled, false, row.id);
    const Surface asked = row.chosen ? Surface::Chosen : Surface::Button;
    draw_row(t, cell, row, face_of(hit, row.enabled, asked), size, row.enabled);
    if (hit.tapped) tapped = p.first + i;
  }
  p.turn(t, page);
  return tapped;
}

int page_with(const Touch& t, const Rect& rect, std::size_t count, std::size_t row) {
  int page = 0;
  const Paging p = paging(t, rect, count, 1, t.least_h(), page);
  return static_cast<int>(row / p.lines);
}

std::optional<std::size_t> phrases(Touch& t, const Rect& rect, int& page,
                                   std::span<const Phrase> list) {
  const std::size_t cols = fit_count(rect.w, t.mm(48), t.gap()) >= 2 ? 2 : 1;
  const Paging p = paging(t, rect, list.size(), cols, t.least_h(), page);
  const std::vector<Rect> cells = grid(p.room, cols, p.lines, t.gap());
  std::optional<std::size_t> tapped;
  for (std::size_t i = p.first; i < p.last; ++i) {
    const Rect& cell = cells[i - p.first];
    const Hit hit = t.target(list[i].words, cell);
    const Surface asked = list[i].on ? Surface::Chosen : Surface::Button;
    draw_face(t, cell, face_of(hit, true, asked), true, list[i].on);
    draw_block(t, inset(cell, t.mm(2), t.mm(1)),
               {list[i].words, {}, list[i].on ? Mark::Check : Mark::None});
    if (hit.tapped) tapped = i;
  }
  p.turn(t, page);
  return tapped;
}

float nav_height(const Touch& t, std::span<const std::string> names, float width) {
  const std::size_t cols = nav_columns(t, names, width);
  const auto lines = static_cast<float>((names.size() + cols - 1) / cols);
  return lines * t.least_h() + std::max(0.0F, lines - 1) * t.gap();
}

float nav_width(const Touch& t, std::span<const std::string> names, float height) {
  const auto cols = nav_columns_upright(t, names.size(), height);
  if (cols == 1) return t.mm(27);
  return static_cast<float>(cols) * (t.least_w() + t.gap()) - t.gap();
}

std::optional<int> nav_bar(Touch& t, const Rect& rect, std::span<const std::string> names,
                           int current, std::optional<Surface> alarm) {
  const std::size_t cols = rect.h > rect.w ? nav_columns_upright(t, names.size(), rect.h)
                                           : nav_columns(t, names, rect.w);
  const std::size_t lines = (names.size() + cols - 1) / cols;
  const std::vector<Rect> cells = grid(rect, cols, lines, t.gap());
  const std::vector<std::string_view> words(names.begin(), names.end());
  const Size size = common_size(t, words, cells.front().w - t.mm(2), Size::Body);
  std::optional<int> tapped;
  for (std::size_t i = 0; i < names.size(); ++i) {
    const bool here = static_cast<int>(i) == current;
    const Hit hit = t.target(names[i], cells[i]);
    const bool calls = alarm && i + 1 == names.size();
    const Surface asked = calls ? *alarm : here ? Surface::Chosen : Surface::Bar;
    const Surface surface = face_of(hit, true, asked);
    draw_face(t, cells[i], surface, true, here);
    Rect room = cells[i];
    const Rect line = inset(cut_bottom(room, t.mm(2.4F)), t.mm(5), t.mm(0.6F));
    if (here) paint_rect(t.draw(), line, t.theme()[surface].ink);
    if (calls)
      draw_call(t, room, names[i], surface, size);
    else
      text(t, inset(cells[i], t.mm(1), 0), names[i], {.size = size, .align = Align::Center});
    if (hit.tapped) tapped = static_cast<int>(i);
  }
  return tapped;
}

}  // namespace ui
