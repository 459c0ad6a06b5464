#include "ui/touch/contrast.h"

#include <doctest/doctest.h>

namespace contrast_test {

using ui::Colour;
using ui::contrast_ratio;

TEST_CASE("contrast follows the ratios that W3C prints") {
  struct Row {
    std::string name;
    Colour a, b;
    double want;
  };
  // Black on white: WCAG 2.2, "contrast ratio" ranges from 1 to 21. The greys: W3C, Understanding
  // SC 1.4.3 and the accessibility tutorials name #767676 as the palest grey to pass 4.5 (4.54)
  // and #777777 as failing (4.47); both values from memory.
  const Row rows[] = {
      {"black on white", {0, 0, 0}, {255, 255, 255}, 21.0},
      {"the same turned round", {255, 255, 255}, {0, 0, 0}, 21.0},
      {"one colour on itself", {12, 34, 56}, {12, 34, 56}, 1.0},
      {"#767676 on white", {0x76, 0x76, 0x76}, {255, 255, 255}, 4.54},
      {"#777777 on white", {0x77, 0x77, 0x77}, {255, 255, 255}, 4.48},
  };
  for (const Row& r : rows) {
    INFO(r.name);
    CHECK(contrast_ratio(r.a, r.b) == doctest::Approx(r.want).epsilon(0.001));
  }
}

TEST_CASE("luminance weighs red, green and blue as sRGB does") {
  // The coefficients of the WCAG 2.2 definition, full channels alone.
  CHECK(ui::relative_luminance({255, 0, 0}) == doctest::Approx(0.2126));
  CHECK(ui::relative_luminance({0, 255, 0}) == doctest::Approx(0.7152));
  CHECK(ui::relative_luminance({0, 0, 255}) == doctest::Approx(0.0722));
}

TEST_CASE("colours read and write as #rrggbb and as nothing else") {
  CHECK(ui::colour_from_hex("#0a1Bff") == Colour{0x0a, 0x1b, 0xff});
  CHECK(ui::hex({0x0a, 0x1b, 0xff}) == "#0a1bff");
  for (const char* bad : {"", "#12345", "0a1bff0", "#0a1bfg", "#0a1bff0", "#+1-2+3"}) {
    INFO(std::string(bad));
    CHECK_FALSE(ui::colour_from_hex(bad));
  }
}

}  // namespace contrast_test
