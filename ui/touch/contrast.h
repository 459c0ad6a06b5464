// ui/touch/contrast.h -- how readable one colour is on another.
//
// Relative luminance and contrast ratio as W3C defines them in WCAG 2.1 and 2.2 ("relative
// luminance", "contrast ratio"): 1 (none) to 21 (black on white). This house asks for 7 everywhere
// (success criterion 1.4.6, level AAA), disabled buttons included, because dusk and sun both cost.
#pragma once
#include <cstdint>
#include <optional>
#include <string>
#include <string_view>

namespace ui {

struct Colour {
  std::uint8_t r = 0, g = 0, b = 0;
  friend bool operator==(const Colour&, const Colour&) = default;
};

inline constexpr double kLeastContrast = 7.0;

[[nodiscard]] double relative_luminance(Colour c);
[[nodiscard]] double contrast_ratio(Colour a, Colour b);

// "#rrggbb" both ways; nothing when the text is anything else.
[[nodiscard]] std::optional<Colour> colour_from_hex(std::string_view text);
[[nodiscard]] std::string hex(Colour c);

}  // namespace ui
