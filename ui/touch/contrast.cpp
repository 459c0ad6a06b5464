#include "ui/touch/contrast.h"

#include <algorithm>
#include <charconv>
#include <cmath>

namespace ui {

namespace {

// WCAG 2.2 text has the threshold 0.04045; 2.0 had 0.03928. No 8-bit value lies between them.
double linear(std::uint8_t channel) {
  const double c = channel / 255.0;
  return c <= 0.04045 ? c / 12.92 : std::pow((c + 0.055) / 1.055, 2.4);
}

std::optional<std::uint8_t> byte_from_hex(std::string_view two) {
  std::uint8_t value = 0;
  const char* end = two.data() + two.size();
  const auto got = std::from_chars(two.data(), end, value, 16);
  if (got.ec != std::errc{} || got.ptr != end) return std::nullopt;
  return value;
}

}  // namespace

double relative_luminance(Colour c) {
  return 0.2126 * linear(c.r) + 0.7152 * linear(c.g) + 0.0722 * linear(c.b);
}

double contrast_ratio(Colour a, Colour b) {
  const double la = relative_luminance(a);
  const double lb = relative_luminance(b);
  return (std::max(la, lb) + 0.05) / (std::min(la, lb) + 0.05);
}

std::optional<Colour> colour_from_hex(std::string_view text) {
  if (text.size() != 7 || text[0] != '#') return std::nullopt;
  const auto r = byte_from_hex(text.substr(1, 2));
  const auto g = byte_from_hex(text.substr(3, 2));
  const auto b = byte_from_hex(text.substr(5, 2));
  if (!r || !g || !b) return std::nullopt;
  return Colour{*r, *g, *b};
}

std::string hex(Colour c) {
  constexpr char kDigits[] = "0123456789abcdef";
  std::string out = "#";
  for (const std::uint8_t byte : {c.r, c.g, c.b}) {
    out += kDigits[byte >> 4U];
    out += kDigits[byte & 15U];
  }
  return out;
}

}  // namespace ui
