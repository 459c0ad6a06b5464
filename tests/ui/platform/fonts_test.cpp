#include "ui/platform/fonts.h"

#include <doctest/doctest.h>
#include <imgui.h>

#include <bit>
#include <cstdio>
#include <fstream>
#include <string>

namespace fonts_test {

namespace {

// 1280x800 on 10.1 inches; 1920x1200 on 10.1 and on 8 inches.
constexpr float kUsual = 5.884f, kFine = 8.826f, kFinest = 11.14f;

ui::Fonts built(ImFontAtlas& atlas, float px_per_mm) {
  const auto face = ui::find_face();
  REQUIRE_MESSAGE(face.ok(), face.status().message());
  const auto fonts = ui::build_fonts(atlas, px_per_mm, face.value());
  REQUIRE_MESSAGE(fonts.ok(), fonts.status().message());
  return fonts.value();
}

bool has(const ImFont* font, unsigned code) {
  return font->FindGlyphNoFallback(static_cast<ImWchar>(code)) != nullptr;
}

}  // namespace

TEST_CASE("every text size has ASCII and all of U+00A0 to U+017F") {
  ImFontAtlas atlas;
  const ui::Fonts f = built(atlas, kUsual);
  for (const ImFont* font : {f.small, f.body, f.large, f.huge}) {
    int missing = 0;
    for (unsigned code = 0x20; code <= 0x17f; ++code)
      if ((code < 0x7f || code >= 0xa0) && !has(font, code)) ++missing;
    CHECK(missing == 0);
  }
}

TEST_CASE("every text size has the marks that screens use") {
  ImFontAtlas atlas;
  const ui::Fonts f = built(atlas, kUsual);
  const ImWchar marks[] = {0x00b0, 0x0219, 0x021b, 0x2010, 0x2013, 0x2014, 0x2018, 0x2019, 0x201a,
                           0x201c, 0x201d, 0x201e, 0x2022, 0x2026, 0x2039, 0x203a, 0x20ac, 0x2190,
                           0x2191, 0x2192, 0x2193, 0x2212, 0x2248, 0x2264, 0x2265, 0x25a0, 0x25a1,
                           0x25b2, 0x25b6, 0x25bc, 0x25c0, 0x25cb, 0x25cf, 0x26a0, 0x2713, 0x2717};
  for (const ImFont* font : {f.small, f.body, f.large, f.huge})
    for (const ImWchar mark : marks) {
      INFO("U+" << std::hex << mark);
      CHECK(has(font, mark));
    }
}

TEST_CASE("the clock has its characters only, and its digits are of one width") {
  ImFontAtlas atlas;
  const ui::Fonts f = built(atlas, kUsual);
  for (const char c : std::string("0123456789:+- ")) CHECK(has(f.clock, static_cast<unsigned>(c)));
  CHECK_FALSE(has(f.clock, 'A'));
  for (const ImFont* font : {f.small, f.body, f.large, f.huge, f.clock})
    for (ImWchar c = '1'; c <= '9'; ++c)
      CHECK(font->GetCharAdvance(c) == font->GetCharAdvance('0'));
}

TEST_CASE("sizes are those asked for, in millimetres") {
  ImFontAtlas atlas;
  const ui::Fonts f = built(atlas, kUsual);
  const ui::TextSizes mm;
  const struct {
    const ImFont* font;
    float mm;
  } rows[] = {{f.small, mm.small_mm},
              {f.body, mm.body_mm},
              {f.large, mm.large_mm},
              {f.huge, mm.huge_mm},
              {f.clock, mm.clock_mm}};
  for (const auto& r : rows)
    CHECK(r.font->FontSize == doctest::Approx(r.mm * kUsual).epsilon(0.03));
}

TEST_CASE("the atlas has power-of-two sides of at most 2048, on the finest panel too") {
  for (const float density : {2.0f, kUsual, kFine, kFinest}) {
    INFO(density << " px/mm");
    ImFontAtlas atlas;
    const ui::Fonts f = built(atlas, density);
    for (const int side : {atlas.TexWidth, atlas.TexHeight}) {
      CHECK(side <= 2048);
      CHECK(std::has_single_bit(static_cast<unsigned>(side)));
    }
    CHECK(f.clock->FontSize > f.huge->FontSize);
    CHECK(f.huge->FontSize > f.large->FontSize);
  }
}

TEST_CASE("a face that is not there or not a font is a failure that says what to install") {
  const std::string junk = "fonts_test_junk.ttf";
  std::ofstream(junk) << std::string(5000, 'x');
  for (const std::string& path : {std::string("no/such/face.ttf"), junk}) {
    ImFontAtlas atlas;
    const auto fonts = ui::build_fonts(atlas, kUsual, path);
    REQUIRE_FALSE(fonts.ok());
    CHECK(fonts.status().message().find(path) != std::string::npos);
    CHECK(fonts.status().message().find("fonts-dejavu-core") != std::string::npos);
  }
  std::remove(junk.c_str());
}

TEST_CASE("letters that cannot fit are a failure, not a crash") {
  ImFontAtlas atlas;
  const auto face = ui::find_face();
  REQUIRE(face.ok());
  CHECK_FALSE(ui::build_fonts(atlas, kUsual, face.value(), {}, 256).ok());
}

}  // namespace fonts_test
