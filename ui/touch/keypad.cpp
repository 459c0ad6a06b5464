#include <fmt/format.h>

#include <algorithm>
#include <charconv>
#include <cmath>

#include "ui/touch/buttons.h"
#include "ui/touch/entry.h"
#include "ui/touch/show.h"
#include "ui/touch/text.h"

namespace ui {

namespace {

constexpr std::size_t kMostDigits = 9;

std::string shown(const Touch& t, std::string number) {
  const auto point = number.find('.');
  if (point != std::string::npos) number.replace(point, 1, t.words().decimal_point);
  return number;
}

// Whole numbers in full, others without zeros at their end.
std::string plain_number(double value) {
  if (value == std::round(value)) return fmt::format("{:.0f}", value);
  return fmt::format("{:g}", value);
}

std::string range_words(const Touch& t, const NumberAsk& ask) {
  if (!ask.hint.empty()) return ask.hint;
  const std::string low = shown(t, plain_number(ask.low));
  const std::string high = shown(t, plain_number(ask.high));
  const std::string words = filled(t.words().range, low, high);
  return ask.unit.empty() ? words : words + " " + ask.unit;
}

// What the key makes of the typed number; unchanged where the key makes no sense.
void type_digit(const NumberAsk& ask, std::string& typed, char digit) {
  const auto point = typed.find('.');
  if (typed.size() >= kMostDigits) return;
  if (point != std::string::npos && typed.size() - point > static_cast<std::size_t>(ask.decimals)) {
    return;
  }
  if (typed == "0") typed.clear();
  typed += digit;
}

void type_point(std::string& typed) {
  if (typed.find('.') != std::string::npos || typed.size() + 2 > kMostDigits) return;
  if (typed.empty()) typed = "0";
  typed += '.';
}

void turn_sign(std::string& typed) {
  if (typed.starts_with('-'))
    typed.erase(0, 1);
  else if (typed.size() < kMostDigits)
    typed.insert(0, "-");
}

// Twelve keys, three by four, digits as on a telephone (ITU-T E.161).
void draw_keys(Touch& t, const Rect& rect, const NumberAsk& ask, std::string& typed) {
  const std::vector<Rect> cells = grid(rect, 3, 4, t.gap());
  const std::string digits = "123456789 0";
  for (std::size_t i = 0; i < digits.size(); ++i) {
    if (digits[i] == ' ') continue;
    if (button(t, cells[i], std::string(1, digits[i]), {.large = true})) {
      type_digit(ask, typed, digits[i]);
    }
  }
  if (ask.low < 0) {
    if (button(t, cells[9], "+/-", {.large = true})) turn_sign(typed);
  } else if (ask.decimals > 0 && button(t, cells[9], t.words().decimal_point, {.large = true})) {
    type_point(typed);
  }
  if (button(t, cells[11], t.words().remove, {.enabled = !typed.empty()}) && !typed.empty()) {
    typed.pop_back();
  }
}

void draw_field(Touch& t, const Rect& rect, const NumberAsk& ask, const std::string& typed) {
  const bool wrong = !typed.empty() && !number_typed(ask, typed);
  Rect room = rect;
  const Rect under = cut_bottom(room, line_height(t, Size::Small) + t.mm(2.4F), t.mm(1));
  Rect field = panel(t, room);
  const float unit = ask.unit.empty() ? 0 : text_width(t, ask.unit, Size::Large) + 1;
  text(t, cut_right(field, unit, t.mm(2)), ask.unit, {.size = Size::Large, .quiet = true});
  text(t, field, shown(t, typed), {.size = Size::Huge, .align = Align::Right});
  tag(t, under, range_words(t, ask), wrong ? Mark::Warning : Mark::None,
      wrong ? Surface::Warning : Surface::Page);
}

std::optional<double> draw_presets(Touch& t, const Rect& rect, const NumberAsk& ask) {
  const std::size_t n = ask.presets.size();
  if (n == 0) return std::nullopt;
  const std::size_t cols =
      std::min(n, std::max<std::size_t>(1, fit_count(rect.w, t.mm(24), t.gap())));
  const std::vector<Rect> cells = grid(rect, cols, (n + cols - 1) / cols, t.gap());
  std::optional<double> value;
  for (std::size_t i = 0; i < n; ++i) {
    if (button(t, cells[i], ask.presets[i].label, {.large = true})) value = ask.presets[i].value;
  }
  return value;
}

float presets_height(const Touch& t, const NumberAsk& ask, float width) {
  if (ask.presets.empty()) return 0;
  const std::size_t cols = std::max<std::size_t>(1, fit_count(width, t.mm(24), t.gap()));
  const auto lines = static_cast<float>((ask.presets.size() + cols - 1) / cols);
  return lines * t.least_h() * 1.3F + (lines - 1) * t.gap();
}

Entry draw_ends(Touch& t, const Rect& rect, const NumberAsk& ask, NumberEntry& entry) {
  const std::vector<Rect> cells = columns(rect, 2, t.gap());
  const bool cancelled = button(t, cells[0], t.words().cancel);
  const auto value = number_typed(ask, entry.typed);
  const bool done =
      button(t, cells[1], t.words().ok,
             {.enabled = value.has_value(), .surface = Surface::Action, .large = true});
  if (cancelled) return Entry::Cancelled;
  if (!done || !value) return Entry::Open;
  entry.value = *value;
  return Entry::Done;
}

}  // namespace

std::optional<double> number_typed(const NumberAsk& ask, std::string_view typed) {
  double value = 0;
  const char* end = typed.data() + typed.size();
  const auto got = std::from_chars(typed.data(), end, value, std::chars_format::fixed);
  if (got.ec != std::errc{} || got.ptr != end) return std::nullopt;
  constexpr double kRounding = 1e-9;  // 0.1 is not exact
  if (!(value >= ask.low - kRounding && value <= ask.high + kRounding)) return std::nullopt;
  return value;
}

Entry keypad(Touch& t, const Rect& rect, const NumberAsk& ask, NumberEntry& entry) {
  Rect keys = rect;
  const bool wide = rect.w > rect.h;
  Rect side = wide ? cut_left(keys, rect.w * 0.42F, t.gap() * 1.5F)
                   : cut_top(keys, rect.h * 0.42F, t.gap() * 1.5F);
  // Wide: the ends stand under the number; high: under the keys, where the thumb is.
  const Rect ends = cut_bottom(wide ? side : keys, t.least_h() * 1.15F, t.gap());
  if (!ask.title.empty()) {
    const float high = std::min(text_height(t, ask.title, side.w, Size::Body), side.h * 0.3F);
    text(t, cut_top(side, high, t.mm(1.5F)), ask.title);
  }
  const Rect presets = cut_bottom(side, presets_height(t, ask, side.w), t.gap());
  side.h = std::min(side.h, t.mm(wide ? 44 : 34));
  const auto preset = draw_presets(t, presets, ask);
  draw_keys(t, keys, ask, entry.typed);
  draw_field(t, side, ask, entry.typed);
  const Entry end = draw_ends(t, ends, ask, entry);
  if (!preset) return end;
  entry.value = *preset;
  return Entry::Done;
}

}  // namespace ui
