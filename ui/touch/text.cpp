#include "ui/touch/text.h"

#include <imgui.h>

#include <algorithm>
#include <cmath>

#include "ui/touch/paint.h"

namespace ui {

namespace {

ImFont* font_of(const Touch& t, Size size) {
  const Fonts& f = t.frame().fonts;
  ImFont* const fonts[] = {f.small, f.body, f.large, f.huge, f.clock};
  return fonts[static_cast<std::size_t>(size)];
}

float width_of(const ImFont* font, std::string_view s) {
  if (s.empty()) return 0;  // ImGui would look for the end of a null string
  return font->CalcTextSizeA(font->FontSize, 1e9F, 0, s.data(), s.data() + s.size()).x;
}

float line_of(const ImFont* font) { return std::round(font->FontSize * 1.06F); }

// How far apart lines stand, and how far above its box the first begins. Tight lines are cut to
// the height of a digit.
struct Leading {
  float step, lift;
};

Leading leading(const ImFont* font, bool tight) {
  const ImFontGlyph* digit = tight ? font->FindGlyphNoFallback('0') : nullptr;
  if (digit == nullptr) return {line_of(font), 0};
  const float air = font->FontSize * 0.03F;
  return {std::round(digit->Y1 - digit->Y0 + 2 * air), std::round(digit->Y0 - air)};
}

bool can_say(const ImFont* font, std::string_view words) {
  return std::all_of(words.begin(), words.end(), [&](char c) {
    // Only plain letters are looked up: the clock face is the one face without them.
    const auto byte = static_cast<unsigned char>(c);
    return byte == '\n' || byte >= 0x80 || font->FindGlyphNoFallback(byte) != nullptr;
  });
}

struct Lines {
  std::vector<std::string_view> lines;
  bool broke_word = false;  // a word was wider than the room
};

// The most letters of `s` (at least one) that fit in `width`.
std::size_t letters_that_fit(const ImFont* font, std::string_view s, float width) {
  std::size_t fit = 0;
  for (const std::string& letter : letters_of(s)) {
    if (fit > 0 && width_of(font, s.substr(0, fit + letter.size())) > width) break;
    fit += letter.size();
  }
  return fit;
}

// A path is one long word. It may go on in the next line after a slash, so that where a store lies
// is read whole however deep its folder is; zero when no slash stands within `fit`.
std::size_t after_last_slash(std::string_view s, std::size_t fit) {
  const std::size_t slash = s.substr(0, fit).rfind('/');
  return slash == std::string_view::npos || slash == 0 ? 0 : slash + 1;
}

void wrap_paragraph(const ImFont* font, std::string_view rest, float width, Lines& out) {
  while (!rest.empty()) {
    std::size_t fit = 0;   // bytes of whole words that fit
    std::size_t next = 0;  // where the line after begins
    while (next < rest.size()) {
      const std::size_t end = std::min(rest.find(' ', next), rest.size());
      if (width_of(font, rest.substr(0, end)) > width) break;
      fit = end;
      next = end + 1;
    }
    if (fit == 0) {  // also a line that begins with a space
      const std::size_t letters = letters_that_fit(font, rest, width);
      const std::size_t folders = after_last_slash(rest, letters);
      fit = folders > 0 ? folders : letters;
      next = fit;
      out.broke_word = out.broke_word || folders == 0;
    }
    out.lines.push_back(rest.substr(0, fit));
    rest = next < rest.size() ? rest.substr(next) : std::string_view{};
  }
}

Lines wrap(const ImFont* font, std::string_view words, float width) {
  Lines out;
  std::size_t at = 0;
  while (at <= words.size()) {
    const std::size_t end = std::min(words.find('\n', at), words.size());
    const std::string_view paragraph = words.substr(at, end - at);
    if (paragraph.empty()) out.lines.push_back(paragraph);
    wrap_paragraph(font, paragraph, width, out);
    at = end + 1;
  }
  return out;
}

struct Setting {
  const ImFont* font = nullptr;
  std::vector<std::string> lines;
  bool cut = false;  // letters are lost, or a word had to be broken
};

std::string with_ellipsis(const ImFont* font, std::string_view line, float width) {
  const bool has_one = font->FindGlyphNoFallback(0x2026) != nullptr;
  const std::string dots = has_one ? "\xE2\x80\xA6" : "...";
  std::string kept(line);
  std::vector<std::string> all = letters_of(line);
  while (!all.empty() && width_of(font, kept + dots) > width) {
    kept.resize(kept.size() - all.back().size());
    all.pop_back();
  }
  return kept + dots;
}

// The largest size between the asked and the least in which everything stands in the room.
Setting set(const Touch& t, std::string_view words, const Rect& room, const TextLook& look) {
  Setting s;
  Lines wrapped;
  for (int size = static_cast<int>(look.size); size >= static_cast<int>(look.least); --size) {
    const ImFont* font = font_of(t, static_cast<Size>(size));
    if (!can_say(font, words) && size > static_cast<int>(look.least)) continue;
    s.font = font;
    wrapped = wrap(font, words, room.w);
    const float high = leading(font, look.tight).step * static_cast<float>(wrapped.lines.size());
    s.cut = wrapped.broke_word || high > room.h + 1;
    if (!s.cut) break;
  }
  s.lines.assign(wrapped.lines.begin(), wrapped.lines.end());
  const auto most =
      static_cast<std::size_t>(std::max(1.0F, (room.h + 1) / leading(s.font, look.tight).step));
  if (s.lines.size() > most) {
    s.lines.resize(most);
    s.lines.back() = with_ellipsis(s.font, s.lines.back(), room.w);
  }
  return s;
}

float start_of(Align align, const Rect& room, float width) {
  if (align == Align::Center) return room.x + (room.w - width) / 2;
  return align == Align::Right ? room.right() - width : room.x;
}

float top_of(Place place, const Rect& room, float high) {
  if (place == Place::Middle) return room.y + (room.h - high) / 2;
  return place == Place::Bottom ? room.bottom() - high : room.y;
}

std::string joined(const std::vector<std::string>& lines) {
  std::string all;
  for (const std::string& line : lines) {
    if (!all.empty()) all += ' ';
    all += line;
  }
  return all;
}

Rect draw_lines(Touch& t, const Rect& room, const Setting& s, const TextLook& look, Colour ink) {
  const auto [step, lift] = leading(s.font, look.tight);
  const float high = step * static_cast<float>(s.lines.size());
  Rect box{room.right(), top_of(look.place, room, high), 0, high};
  float y = box.y;
  float right = room.x;
  for (const std::string& line : s.lines) {
    const float w = width_of(s.font, line);
    const float x = std::floor(start_of(look.align, room, w));
    t.draw()->AddText(s.font, s.font->FontSize, {x, std::floor(y - lift)}, packed(ink), line.data(),
                      line.data() + line.size());
    box.x = std::min(box.x, x);
    right = std::max(right, x + w);
    y += step;
  }
  box.w = std::max(0.0F, right - box.x);
  return box;
}

}  // namespace

Rect text(Touch& t, const Rect& rect, std::string_view words, const TextLook& look) {
  if (words.empty()) return {rect.x, rect.y, 0, 0};
  const Setting s = set(t, words, rect, look);
  const Skin& skin = t.theme()[t.surface_at(rect)];
  const Colour ink = look.quiet ? skin.quiet : skin.ink;
  const Rect box = draw_lines(t, rect, s, look, ink);
  t.record({s.cut ? joined(s.lines) : std::string(words), box, ink, {}, s.font->FontSize, s.cut});
  return box;
}

Rect heading(Touch& t, const Rect& rect, std::string_view words) {
  return text(t, rect, words, {.size = Size::Large, .least = Size::Body});
}

Rect remark(Touch& t, const Rect& rect, std::string_view words, Size size) {
  return text(t, rect, words, {.size = size, .quiet = true});
}

float line_height(const Touch& t, Size size) { return line_of(font_of(t, size)); }

float digit_height(const Touch& t, Size size) { return leading(font_of(t, size), true).step; }

float text_width(const Touch& t, std::string_view words, Size size) {
  return width_of(font_of(t, size), words);
}

Size common_size(const Touch& t, std::span<const std::string_view> words, float width, Size most,
                 Size least) {
  for (int size = static_cast<int>(most); size > static_cast<int>(least); --size) {
    const ImFont* font = font_of(t, static_cast<Size>(size));
    const bool fits = std::all_of(words.begin(), words.end(),
                                  [&](std::string_view s) { return width_of(font, s) <= width; });
    if (fits) return static_cast<Size>(size);
  }
  return least;
}

bool stands_in(const Touch& t, std::string_view words, float width, float height, Size size) {
  const ImFont* font = font_of(t, size);
  const Lines wrapped = wrap(font, words, width);
  const float high = line_of(font) * static_cast<float>(wrapped.lines.size());
  return !wrapped.broke_word && high <= height + 1;
}

float text_height(const Touch& t, std::string_view words, float width, Size size) {
  const ImFont* font = font_of(t, size);
  return line_of(font) * static_cast<float>(wrap(font, words, width).lines.size());
}

}  // namespace ui
