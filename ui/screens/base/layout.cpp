#include "ui/screens/base/layout.h"

#include <fmt/format.h>

#include <algorithm>

namespace ui {

namespace {

// At the right of a lying screen: one column, or two where one is not enough.
std::vector<Rect> cells_right(const Touch& t, Rect& room, std::size_t n) {
  const std::size_t fit = std::max<std::size_t>(1, fit_count(room.h, t.least_h(), t.gap()));
  const std::size_t cols = n > fit ? 2 : 1;
  const float each = t.mm(cols == 1 ? 48 : 36);
  Rect side = cut_right(room, each * static_cast<float>(cols), t.gap());
  const std::size_t lines = (n + cols - 1) / cols;
  const float most = static_cast<float>(lines) * t.mm(22) + static_cast<float>(lines - 1) * t.gap();
  side.h = std::min(side.h, most);
  return grid(side, cols, lines, t.gap());
}

// At the foot of an upright one: the big one across, the others in two columns.
std::vector<Rect> cells_below(const Touch& t, Rect& room, std::span<const Act> list) {
  const bool first_wide = list.front().big || list.size() % 2 == 1;
  const std::size_t lines = (list.size() + (first_wide ? 1 : 0) + 1) / 2;
  const float high = t.mm(17);
  const float all = high * static_cast<float>(lines) + t.gap() * static_cast<float>(lines - 1);
  std::vector<Rect> cells = grid(cut_bottom(room, all, t.gap()), 2, lines, t.gap());
  if (first_wide) {
    cells[0].w = cells[1].right() - cells[0].x;
    cells.erase(cells.begin() + 1);
  }
  // An odd one at the end takes the whole line too.
  if (cells.size() > list.size()) cells[list.size() - 1].w = cells.back().right() - cells[0].x;
  return cells;
}

// Body if all the lines fit in it, else small.
Size fitting_size(const Touch& t, const Rect& room, std::span<const std::string> lines) {
  float high = 0;
  for (const std::string& line : lines)
    high += text_height(t, line, room.w, Size::Body) + 1 + t.mm(1.2F);
  return high - t.mm(1.2F) <= room.h ? Size::Body : Size::Small;
}

// Where each page of paragraphs begins.
std::vector<std::size_t> page_starts(const Touch& t, const Rect& room,
                                     std::span<const std::string> lines) {
  std::vector<std::size_t> starts = {0};
  float used = 0;
  for (std::size_t i = 0; i < lines.size(); ++i) {
    const float high = text_height(t, lines[i], room.w, Size::Body) + 1;
    if (used + high > room.h && used > 0) {
      starts.push_back(i);
      used = 0;
    }
    used += high + t.mm(2);
  }
  return starts;
}

std::size_t lines_of(const Touch& t, const std::string& words, float width) {
  const float high = text_height(t, words, width, Size::Small);
  return static_cast<std::size_t>(high / line_height(t, Size::Small) + 0.5F);
}

}  // namespace

void head(Touch& t, Rect& room, std::string_view title, std::string_view second, bool* back) {
  Rect top = cut_top(room, t.least_h(), t.gap());
  if (back != nullptr) {
    const Rect at = cut_left(top, t.mm(26), t.mm(4));
    *back = button(t, at, "Back", {.mark = Mark::Left});
  }
  if (!second.empty()) {
    const float high = text_height(t, second, top.w, Size::Small) + t.mm(0.6F);
    remark(t, cut_bottom(top, std::min(high, top.h * 0.55F)), second);
  }
  text(t, top, title, {.size = Size::Large});
}

std::optional<std::size_t> acts(Touch& t, Rect& room, std::span<const Act> list) {
  if (list.empty()) return std::nullopt;
  const std::vector<Rect> cells =
      t.portrait() ? cells_below(t, room, list) : cells_right(t, room, list.size());
  std::optional<std::size_t> counted;
  for (std::size_t i = 0; i < list.size(); ++i) {
    const Act& a = list[i];
    const ButtonLook look{a.enabled, a.surface, a.mark, a.second, {}, a.big};
    const bool hit =
        a.hold ? hold_button(t, cells[i], a.label, look) : button(t, cells[i], a.label, look);
    if (hit) counted = i;
  }
  return counted;
}

void sections(Touch& t, Rect& room, std::span<const std::string> names, int& chosen, int& page) {
  std::vector<Rect> cells;
  if (t.portrait()) {
    const std::size_t lines = (names.size() + 2) / 3;
    const float high = static_cast<float>(lines) * (t.least_h() + t.gap()) - t.gap();
    cells = grid(cut_top(room, high, t.gap()), 3, lines, t.gap());
  } else {
    Rect side = cut_left(room, t.mm(44), t.gap());
    const auto n = static_cast<float>(names.size());
    side.h = std::min(side.h, n * t.mm(18) + (n - 1) * t.gap());
    cells = rows(side, names.size(), t.gap());
  }
  for (std::size_t i = 0; i < names.size(); ++i) {
    const bool here = static_cast<int>(i) == chosen;
    const ButtonLook look{.surface = here ? Surface::Chosen : Surface::Button,
                          .mark = here ? Mark::Right : Mark::None};
    if (!button(t, cells[i], names[i], look)) continue;
    chosen = static_cast<int>(i);
    page = 0;
  }
}

void nothing_here(Touch& t, const Rect& room, std::string_view words) {
  text(t, inset(room, t.mm(6)), words, {.size = Size::Large, .align = Align::Center});
}

void told(Touch& t, const Rect& rect, std::string_view title, std::span<const std::string> lines,
          Surface surface) {
  Rect room = panel(t, rect, surface);
  if (!title.empty()) {
    const float high = std::min(text_height(t, title, room.w, Size::Large), room.h * 0.4F);
    text(t, cut_top(room, high, t.mm(1.5F)), title, {.size = Size::Large});
  }
  const Size size = fitting_size(t, room, lines);
  for (std::size_t i = 0; i < lines.size(); ++i) {
    const float high = text_height(t, lines[i], room.w, size) + 1;
    const float more = i + 1 < lines.size() ? line_height(t, size) + t.mm(1.2F) : 0;
    if (high + more > room.h && (i > 0 || lines.size() > 1)) {
      remark(t, room, fmt::format("and {} more", lines.size() - i), size);
      return;
    }
    const bool alone = lines.size() == 1 && title.empty();
    const Rect line = alone ? room : cut_top(room, high, t.mm(1.2F));
    text(t, line, lines[i], {.size = size, .place = alone ? Place::Middle : Place::Top});
  }
}

void paragraphs(Touch& t, const Rect& rect, int& page, std::span<const std::string> lines) {
  Rect whole = rect;
  std::vector<std::size_t> starts = page_starts(t, inset(whole, t.mm(2)), lines);
  if (starts.size() > 1) {
    const Rect foot = cut_bottom(whole, t.least_h(), t.gap());
    starts = page_starts(t, inset(whole, t.mm(2)), lines);
    pager(t, foot, page, static_cast<int>(starts.size()));
  }
  page = std::clamp(page, 0, static_cast<int>(starts.size()) - 1);
  const auto at = static_cast<std::size_t>(page);
  const std::size_t last = at + 1 < starts.size() ? starts[at + 1] : lines.size();
  Rect room = panel(t, whole);
  for (std::size_t i = starts[at]; i < last; ++i) {
    const float high = text_height(t, lines[i], room.w, Size::Body) + 1;
    text(t, cut_top(room, high, t.mm(2)), lines[i], {.place = Place::Top});
  }
}

void fit_row(const Touch& t, Row& row, float list_width) {
  constexpr std::size_t kBesideSecond = 2, kAlone = 3;
  const float tag = row.tag.empty() ? 0 : text_width(t, row.tag, Size::Small) + t.mm(13);
  const float width = list_width - t.mm(7) - std::min(tag, list_width * 0.5F);
  if (lines_of(t, row.title, width) <= kBesideSecond) return;
  row.second.clear();
  while (lines_of(t, row.title, width) > kAlone) {
    const std::size_t space = row.title.find_last_of(' ');
    if (space == std::string::npos || space == 0) return;
    row.title = row.title.substr(0, space) + "\u2026";
  }
}

std::string without_folders(const std::string& line) {
  std::string out;
  for (std::size_t at = 0; at < line.size();) {
    const std::size_t end = std::min(line.find(' ', at), line.size());
    std::string word = line.substr(at, end - at);
    if (!word.empty() && word[0] == '/') word = word.substr(word.rfind('/') + 1);
    out += word + (end < line.size() ? " " : "");
    at = end + 1;
  }
  return out;
}

Row field(std::string_view name, std::string_view value, std::string_view hint) {
  Row row;
  row.title = fmt::format("{}: {}", name, value.empty() ? "-" : value);
  row.second = std::string(hint);
  row.id = std::string(name);
  return row;
}

void start_words(Typing& typing, int field, std::string_view now) {
  typing = {};
  typing.field = field;
  typing.words.typed = std::string(now);
  if (!now.empty()) typing.words.keys = Keys::Lower;
}

void start_number(Typing& typing, int field) {
  typing = {};
  typing.field = field;
}

bool typed_words(Touch& t, Typing& typing, const TextAsk& ask, std::string& out) {
  TextAsk inner = ask;
  inner.title.clear();
  const Entry end = letters(t, dialog_panel(t, ask.title), inner, typing.words);
  if (end == Entry::Open) return false;
  if (end == Entry::Done) out = typing.words.typed;
  typing = {};
  return end == Entry::Done;
}

bool typed_number(Touch& t, Typing& typing, const NumberAsk& ask, double& out) {
  NumberAsk inner = ask;
  inner.title.clear();
  const Entry end = keypad(t, dialog_panel(t, ask.title), inner, typing.number);
  if (end == Entry::Open) return false;
  if (end == Entry::Done) out = typing.number.value;
  typing = {};
  return end == Entry::Done;
}

}  // namespace ui
