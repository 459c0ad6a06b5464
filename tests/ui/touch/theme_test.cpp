#include "ui/touch/theme.h"

#include <doctest/doctest.h>

namespace theme_test {

using ui::Theme;
using ui::ThemeText;

TEST_CASE("both inks of every surface reach 7:1 in both built-in themes") {
  for (const Theme& theme : {ui::sun_theme(), ui::dusk_theme()}) {
    for (std::size_t i = 0; i < ui::kSurfaces; ++i) {
      const ui::Skin& skin = theme.skins[i];
      INFO(theme.name << " " << std::string(ui::name(static_cast<ui::Surface>(i))));
      CHECK(ui::contrast_ratio(skin.ground, skin.ink) >= ui::kLeastContrast);
      CHECK(ui::contrast_ratio(skin.ground, skin.quiet) >= ui::kLeastContrast);
    }
  }
}

TEST_CASE("the sun theme is dark on light, the dusk theme light on dark") {
  const auto lum = [](const Theme& t, ui::Colour ui::Skin::*c) {
    return ui::relative_luminance(t[ui::Surface::Page].*c);
  };
  CHECK(lum(ui::sun_theme(), &ui::Skin::ground) > lum(ui::sun_theme(), &ui::Skin::ink));
  CHECK(lum(ui::dusk_theme(), &ui::Skin::ground) < lum(ui::dusk_theme(), &ui::Skin::ink));
}

TEST_CASE("a theme written as text comes back the same") {
  for (const Theme& theme : {ui::sun_theme(), ui::dusk_theme()}) {
    const auto back = ui::make_theme(ui::theme_text(theme));
    REQUIRE(back.ok());
    CHECK(back.value().name == theme.name);
    CHECK(ui::theme_text(back.value()).skins[3].ground == ui::hex(theme.skins[3].ground));
    CHECK(back.value()[ui::Surface::Alarm].ink == theme[ui::Surface::Alarm].ink);
  }
}

TEST_CASE("make_theme names the surface and the mistake") {
  struct Row {
    std::string name;
    void (*spoil)(ThemeText&);
    std::string want;
  };
  const Row rows[] = {
      {"missing", [](ThemeText& t) { t.skins.erase(t.skins.begin() + 4); }, "surface pressed"},
      {"double", [](ThemeText& t) { t.skins[4] = t.skins[5]; }, "surface disabled: stands there"},
      {"unknown", [](ThemeText& t) { t.skins[4].surface = "sky"; }, "surface sky: not a surface"},
      {"no colour", [](ThemeText& t) { t.skins[2].edge = "red"; }, "edge \"red\" is no colour"},
      {"pale ink", [](ThemeText& t) { t.skins[0].ink = "#767676"; }, "ink on its ground"},
      {"pale quiet", [](ThemeText& t) { t.skins[0].quiet = "#767676"; }, "quiet on its ground"},
  };
  for (const Row& r : rows) {
    INFO(r.name);
    ThemeText text = ui::theme_text(ui::sun_theme());
    r.spoil(text);
    const auto made = ui::make_theme(text);
    REQUIRE_FALSE(made.ok());
    CHECK(made.status().message().find(r.want) != std::string::npos);
  }
}

}  // namespace theme_test
