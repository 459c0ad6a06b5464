#include "ui/touch/theme.h"

#include <fmt/format.h>

namespace ui {

namespace {

constexpr const char* kNames[kSurfaces] = {"page",     "panel",  "bar",     "button", "pressed",
                                           "disabled", "chosen", "action",  "active", "waiting",
                                           "good",     "muted",  "warning", "alarm",  "flash"};

// 0xrrggbb: ground, ink, quiet ink, edge; in the order of Surface.
struct Raw {
  std::uint32_t ground, ink, quiet, edge;
};

constexpr Raw kSun[kSurfaces] = {
    {0xf4f3ee, 0x14181b, 0x3c444a, 0xa9aca6},  // page: warm paper
    {0xffffff, 0x14181b, 0x3c444a, 0xc3c6c0},  // panel
    {0xe4e4dd, 0x14181b, 0x373e43, 0xa9aca6},  // bar
    {0xffffff, 0x101417, 0x3a4248, 0x596067},  // button
    {0x30383f, 0xffffff, 0xe6e9ea, 0x101417},  // pressed
    {0xeae9e4, 0x474b4d, 0x474b4d, 0xbcbdb8},  // disabled
    {0x24323f, 0xffffff, 0xdfe6ea, 0x0c1319},  // chosen
    {0x0b4a86, 0xffffff, 0xe3eefa, 0x06294b},  // action: the one saturated blue
    {0xfff0cc, 0x3a2600, 0x4a3206, 0xb87400},  // active: vapor: amber
    {0xe9e3f4, 0x2b1a4d, 0x3b2a5e, 0x7257ad},  // waiting: closed: violet
    {0xd6efdb, 0x0c3a1d, 0x184a2a, 0x2c8049},  // good
    {0xe6e6e1, 0x3f4446, 0x3f4446, 0x6f7578},  // muted
    {0xffe75c, 0x2a2000, 0x3a2d05, 0x7d6a00},  // warning: yellow
    {0x9c1420, 0xffffff, 0xffeceb, 0x5c0910},  // alarm
    {0xffffff, 0x8e0f1b, 0x8e0f1b, 0x9c1420},  // flash
};

constexpr Raw kDusk[kSurfaces] = {
    {0x0f1214, 0xe8e4d9, 0xb6b2a8, 0x3a4045},  // page: near black, warm ink
    {0x15191c, 0xe8e4d9, 0xb8b4aa, 0x3a4045},  // panel
    {0x15191b, 0xe8e4d9, 0xb8b4aa, 0x33393d},  // bar
    {0x262c31, 0xf1ede3, 0xc9c5bb, 0x79828a},  // button
    {0xe8e4d9, 0x0f1214, 0x2c3135, 0xffffff},  // pressed
    {0x16191b, 0xa8a69f, 0xa8a69f, 0x34393d},  // disabled
    {0xcddcec, 0x0d1b29, 0x22323f, 0xffffff},  // chosen
    {0xf2b33d, 0x1a1100, 0x3a2900, 0xffdf9a},  // action: amber, easy on dark-adapted eyes
    {0x2b1d04, 0xfff1cc, 0xffe0a0, 0xf2b33d},  // active: vapor: amber
    {0x221840, 0xeee8fb, 0xd9cdf2, 0xa58ce0},  // waiting: closed: violet
    {0x12402a, 0xe2f5e7, 0xc8e6d1, 0x54a877},  // good
    {0x22272a, 0xc4c1b9, 0xc4c1b9, 0x83898e},  // muted
    {0x4f4a00, 0xfffbd6, 0xfff3a6, 0xefe24a},  // warning: yellow
    {0x8c1420, 0xffffff, 0xffe6e4, 0xff8d88},  // alarm
    {0xffdcd8, 0x5e0a13, 0x5e0a13, 0xff8d88},  // flash
};

constexpr Raw kNight[kSurfaces] = {
    {0x000000, 0xff6f5a, 0xff6450, 0x5a1a12},  // page: red on black keeps the eye used to the dark
    {0x0a0000, 0xff6f5a, 0xff6a54, 0x5a1a12},  // panel
    {0x0a0000, 0xff6f5a, 0xff6a54, 0x5a1a12},  // bar
    {0x140201, 0xff7a66, 0xff725e, 0xa8392c},  // button
    {0xff7a66, 0x140000, 0x1c0000, 0xff9a8a},  // pressed
    {0x060000, 0xff6450, 0xff6450, 0x3c100b},  // disabled
    {0xff7a66, 0x140000, 0x1c0000, 0xff9a8a},  // chosen
    {0xff7a66, 0x140000, 0x1c0000, 0xffb0a4},  // action
    {0x180300, 0xff8672, 0xff7c66, 0xff7a66},  // active
    {0x100000, 0xff7a66, 0xff705c, 0xc44a3a},  // waiting
    {0x0a0000, 0xff6f5a, 0xff6a54, 0xb8402f},  // good
    {0x060000, 0xff6a56, 0xff6a56, 0xa83a2c},  // muted
    {0x240604, 0xff907e, 0xff8672, 0xff9a8a},  // warning
    {0xff8672, 0x180000, 0x1c0000, 0xffb0a4},  // alarm
    {0x200000, 0xff9080, 0xff9080, 0xffb0a4},  // flash
};

constexpr Colour colour(std::uint32_t rgb) {
  return {static_cast<std::uint8_t>(rgb >> 16U), static_cast<std::uint8_t>((rgb >> 8U) & 255U),
          static_cast<std::uint8_t>(rgb & 255U)};
}

Theme from(const char* theme_name, const Raw (&raw)[kSurfaces]) {
  Theme theme{theme_name, {}};
  for (std::size_t i = 0; i < kSurfaces; ++i) {
    theme.skins[i] = {colour(raw[i].ground), colour(raw[i].ink), colour(raw[i].quiet),
                      colour(raw[i].edge)};
  }
  return theme;
}

engine::Status bad(const std::string& theme, const std::string& surface, const std::string& why) {
  return {engine::Code::BadInput, fmt::format("theme {}, surface {}: {}", theme, surface, why)};
}

std::size_t index_of(const std::string& surface) {
  std::size_t i = 0;
  while (i < kSurfaces && surface != kNames[i]) ++i;
  return i;
}

engine::Result<Skin> make_skin(const std::string& theme, const SkinText& text) {
  struct Field {
    const char* what;
    const std::string& hex;
  };
  Colour got[4];
  std::size_t n = 0;
  for (const Field& f : {Field{"ground", text.ground}, Field{"ink", text.ink},
                         Field{"quiet", text.quiet}, Field{"edge", text.edge}}) {
    const auto c = colour_from_hex(f.hex);
    if (!c) {
      return bad(theme, text.surface,
                 fmt::format("{} \"{}\" is no colour; write it as #rrggbb", f.what, f.hex));
    }
    got[n++] = *c;
  }
  for (const std::size_t i : {std::size_t{1}, std::size_t{2}}) {
    const double ratio = contrast_ratio(got[0], got[i]);
    if (ratio >= kLeastContrast) continue;
    return bad(theme, text.surface,
               fmt::format("{} on its ground has contrast {:.1f}; make it 7 or more",
                           i == 1 ? "ink" : "quiet", ratio));
  }
  return Skin{got[0], got[1], got[2], got[3]};
}

}  // namespace

const char* name(Surface s) { return kNames[static_cast<std::size_t>(s)]; }

Theme sun_theme() { return from("sun", kSun); }

Theme dusk_theme() { return from("dusk", kDusk); }

Theme night_theme() { return from("night", kNight); }

ThemeText theme_text(const Theme& theme) {
  ThemeText text{theme.name, {}};
  for (std::size_t i = 0; i < kSurfaces; ++i) {
    const Skin& s = theme.skins[i];
    text.skins.push_back({kNames[i], hex(s.ground), hex(s.ink), hex(s.quiet), hex(s.edge)});
  }
  return text;
}

engine::Result<Theme> make_theme(const ThemeText& text) {
  Theme theme{text.name, {}};
  std::array<bool, kSurfaces> seen{};
  for (const SkinText& skin_text : text.skins) {
    const std::size_t i = index_of(skin_text.surface);
    if (i == kSurfaces)
      return bad(text.name, skin_text.surface, "not a surface we know; remove it");
    if (seen[i]) return bad(text.name, skin_text.surface, "stands there twice; remove one");
    auto skin = make_skin(text.name, skin_text);
    if (!skin.ok()) return skin.status();
    theme.skins[i] = skin.value();
    seen[i] = true;
  }
  for (std::size_t i = 0; i < kSurfaces; ++i) {
    if (!seen[i]) return bad(text.name, kNames[i], "missing; add it");
  }
  return theme;
}

}  // namespace ui
