// ui/touch/theme.h -- the colours of everything, by what a surface means.
//
// A Surface is a meaning (the page, a button, an alarm); its Skin is the ground and the inks that
// may stand on it. Widgets never name a colour. Ink and quiet ink are at least 7:1 on their ground
// in the built-in themes, and the edges of what has a state are 3:1 on page and panel and told
// apart by the colour-blind (tests/ui/touch/theme_test.cpp); `make_theme` refuses inks that are
// not.
#pragma once
#include <array>
#include <cstddef>
#include <string>
#include <vector>

#include "engine/core/status.h"
#include "ui/touch/contrast.h"

namespace ui {

enum class Surface {
  Page,      // the screen itself
  Panel,     // a calm box of facts on the page
  Bar,       // the bar of screens, title strips
  Button,    // anything that can be tapped
  Pressed,   // the same under the finger
  Disabled,  // cannot be tapped now
  Chosen,    // the picked option
  Action,    // the one thing to do now
  Active,    // under way (vapor running)
  Waiting,   // under way, nothing to do yet (covered)
  Good,      // done, in range
  Muted,     // out of the evening's work (passed over, struck)
  Warning,   // look here
  Alarm,     // act now
  Flash,     // the other half of a flashing alarm
};
inline constexpr std::size_t kSurfaces = 15;
[[nodiscard]] const char* name(Surface s);

struct Skin {
  Colour ground, ink, quiet, edge;
};

struct Theme {
  std::string name;
  std::array<Skin, kSurfaces> skins{};
  [[nodiscard]] const Skin& operator[](Surface s) const {
    return skins[static_cast<std::size_t>(s)];
  }
};

[[nodiscard]] Theme sun_theme();    // dark on light, for daylight
[[nodiscard]] Theme dusk_theme();   // light on dark, spares the eyes at dusk
[[nodiscard]] Theme night_theme();  // red on black: the eyes stay used to the dark

// A theme as a file gives it: every surface by name(), colours as "#rrggbb".
struct SkinText {
  std::string surface, ground, ink, quiet, edge;
};
struct ThemeText {
  std::string name;
  std::vector<SkinText> skins;
};
[[nodiscard]] ThemeText theme_text(const Theme& theme);

// Refuses, naming theme and surface: an unknown, missing or double surface, a colour that is none,
// an ink under 7:1 on its ground.
[[nodiscard]] engine::Result<Theme> make_theme(const ThemeText& text);

}  // namespace ui
