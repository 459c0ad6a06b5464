#include "ui/touch/theme.h"

#include <doctest/doctest.h>

#include <algorithm>
#include <cmath>

namespace theme_test {

using ui::Theme;
using ui::ThemeText;

namespace {

std::vector<Theme> built_in() { return {ui::sun_theme(), ui::dusk_theme(), ui::night_theme()}; }

// What has a state on the plan of a yard.
constexpr ui::Surface kStates[] = {ui::Surface::Active, ui::Surface::Waiting, ui::Surface::Good,
                                   ui::Surface::Muted, ui::Surface::Warning};

// Complete colour blindness of each kind, on linear light: Machado, Oliveira and Fernandes 2009,
// IEEE Trans. Vis. Comput. Graph. 15(6):1291-1298, severity 1.0. From memory; each row sums to 1.
struct Sight {
  std::string name;
  double m[3][3];
};
const std::vector<Sight> kSights = {{"usual", {{1, 0, 0}, {0, 1, 0}, {0, 0, 1}}},
                                    {"protan",
                                     {{0.152286, 1.052583, -0.204868},
                                      {0.114503, 0.786281, 0.099216},
                                      {-0.003882, -0.048116, 1.051998}}},
                                    {"deutan",
                                     {{0.367322, 0.860646, -0.227968},
                                      {0.280085, 0.672501, 0.047413},
                                      {-0.011820, 0.042940, 0.968881}}},
                                    {"tritan",
                                     {{1.255528, -0.076749, -0.178779},
                                      {-0.078411, 0.930809, 0.147602},
                                      {0.004733, 0.691367, 0.303900}}}};

double linear(std::uint8_t channel) {
  const double c = channel / 255.0;
  return c <= 0.04045 ? c / 12.92 : std::pow((c + 0.055) / 1.055, 2.4);
}

struct Lab {
  double l, a, b;
};

// CIE 1976 L*a*b* under D65, of what that eye sees.
Lab seen_by(const Sight& sight, ui::Colour c) {
  const double in[] = {linear(c.r), linear(c.g), linear(c.b)};
  double v[3];
  for (int row = 0; row < 3; ++row)
    v[row] = std::clamp(sight.m[row][0] * in[0] + sight.m[row][1] * in[1] + sight.m[row][2] * in[2],
                        0.0, 1.0);
  const auto f = [](double t) { return t > 0.008856 ? std::cbrt(t) : 7.787 * t + 16.0 / 116; };
  const double x = f((0.4124 * v[0] + 0.3576 * v[1] + 0.1805 * v[2]) / 0.9505);
  const double y = f(0.2126 * v[0] + 0.7152 * v[1] + 0.0722 * v[2]);
  const double z = f((0.0193 * v[0] + 0.1192 * v[1] + 0.9505 * v[2]) / 1.089);
  return {116 * y - 16, 500 * (x - y), 200 * (y - z)};
}

double apart(const Lab& p, const Lab& q) { return std::hypot(p.l - q.l, p.a - q.a, p.b - q.b); }

}  // namespace

// About four times what is just told apart (2.3: Mahy and others 1994, from memory): own choice.
TEST_CASE("the colours of states are told apart by every kind of eye, by day and at dusk") {
  for (const Theme& theme : {ui::sun_theme(), ui::dusk_theme()})
    for (const Sight& sight : kSights)
      for (const ui::Surface a : kStates)
        for (const ui::Surface b : kStates) {
          if (a >= b) continue;
          INFO(theme.name, " ", sight.name, " ", std::string(name(a)), " ", std::string(name(b)));
          CHECK(apart(seen_by(sight, theme[a].edge), seen_by(sight, theme[b].edge)) >= 9);
        }
}

// WCAG 2.2, success criterion 1.4.11: 3:1 for what is no text. At night shapes alone tell states.
TEST_CASE("drawings of every state stand out from page and panel in each theme") {
  for (const Theme& theme : built_in())
    for (const ui::Surface ground : {ui::Surface::Page, ui::Surface::Panel}) {
      for (const ui::Surface s : kStates) {
        INFO(theme.name, " ", std::string(name(s)), " on ", std::string(name(ground)));
        CHECK(ui::contrast_ratio(theme[s].edge, theme[ground].ground) >= 3);
      }
      const ui::Colour act = theme[ui::Surface::Action].ground;
      CHECK(ui::contrast_ratio(act, theme[ground].ground) >= 3);
    }
}

TEST_CASE("the night theme is red on black: no blue and little green reaches the eye") {
  const Theme night = ui::night_theme();
  CHECK(night[ui::Surface::Page].ground == ui::Colour{0, 0, 0});
  for (const ui::Skin& skin : night.skins)
    for (const ui::Colour c : {skin.ground, skin.ink, skin.quiet, skin.edge}) {
      CHECK(linear(c.g) <= 0.47);
      CHECK(c.g >= c.b);
      CHECK(c.r >= c.g);
    }
}

TEST_CASE("both inks of every surface reach 7:1 in all built-in themes") {
  for (const Theme& theme : built_in()) {
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
  for (const Theme& theme : built_in()) {
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
