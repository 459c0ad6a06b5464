// tests/ui/touch/gallery.cpp -- every widget as pictures, to be looked at: touch_gallery FOLDER.
//
// Not a test: no machine can say whether a screen is clear. Writes SCENE-THEME-SIZE.png.
#include <imgui.h>

#include <cstdio>
#include <string>

#include "tests/support/rig.h"
#include "tests/support/scenes.h"
#include "ui/platform/display.h"
#include "ui/touch/faults.h"

namespace {

int draw_all(const test::Panel& panel, const ui::Theme& theme, const std::string& folder) {
  ui::DisplayOptions options;
  options.width_px = static_cast<int>(panel.width);
  options.height_px = static_cast<int>(panel.height);
  auto display = ui::Display::open_headless(options);
  if (!display.ok()) return std::fprintf(stderr, "%s\n", display.status().message().c_str()), 1;
  test::Rig rig(panel, theme);
  if (!display.value().use_atlas(*ImGui::GetIO().Fonts).ok()) return 1;
  for (const test::Scene& scene : test::scenes()) {
    rig.show(scene.draw);
    for (const std::string& fault : ui::faults(rig.touch)) {
      std::printf("%s %s %s: %s\n", scene.name.c_str(), theme.name.c_str(), panel.name.c_str(),
                  fault.c_str());
    }
    const std::string path =
        folder + "/" + scene.name + "-" + theme.name + "-" + panel.name + ".png";
    const auto saved = display.value().save_png(*ImGui::GetDrawData(), path);
    if (!saved.ok()) return std::fprintf(stderr, "%s\n", saved.message().c_str()), 1;
  }
  return 0;
}

}  // namespace

int main(int argc, char** argv) {
  if (argc != 2) return std::fprintf(stderr, "touch_gallery FOLDER\n"), 2;
  int bad = 0;
  for (const test::Panel& panel : {test::landscape(), test::portrait()}) {
    for (const ui::Theme& theme : {ui::sun_theme(), ui::dusk_theme(), ui::night_theme()}) {
      bad += draw_all(panel, theme, argv[1]);
    }
  }
  return bad == 0 ? 0 : 1;
}
