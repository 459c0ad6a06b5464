// tests/ui/screens_gallery.cpp -- every other screen and page as pictures: screens_gallery FOLDER
// [WORD].
//
// Not a test: no machine can say whether a screen is clear. Writes STATE-THEME-SIZE.png; with a
// WORD only the states whose name holds it. Prints what faults() finds.
#include <imgui.h>

#include <cstdio>
#include <string>

#include "tests/ui/farm_states.h"
#include "ui/platform/display.h"
#include "ui/touch/faults.h"

namespace {

bool draw_one(const test::FarmState& state, const test::Panel& panel, const ui::Theme& theme,
              const std::string& folder) {
  ui::DisplayOptions options;
  options.width_px = static_cast<int>(panel.width);
  options.height_px = static_cast<int>(panel.height);
  auto display = ui::Display::open_headless(options);
  if (!display.ok()) return std::fprintf(stderr, "%s\n", display.status().message().c_str()), false;
  test::Evening evening(state.outfit, panel, theme);
  if (!display.value().use_atlas(*ImGui::GetIO().Fonts).ok()) return false;
  state.reach(evening);
  evening.redraw();
  const std::string name = state.name + "-" + theme.name + "-" + panel.name;
  for (const std::string& fault : ui::faults(evening.touch()))
    std::printf("%s: %s\n", name.c_str(), fault.c_str());
  const auto saved = display.value().save_png(*ImGui::GetDrawData(), folder + "/" + name + ".png");
  if (!saved.ok()) std::fprintf(stderr, "%s\n", saved.message().c_str());
  return saved.ok();
}

}  // namespace

int main(int argc, char** argv) {
  if (argc < 2) return std::fprintf(stderr, "screens_gallery FOLDER [WORD]\n"), 2;
  bool good = true;
  for (const test::FarmState& state : test::farm_states()) {
    if (argc > 2 && state.name.find(argv[2]) == std::string::npos) continue;
    for (const test::Panel& panel : {test::landscape(), test::portrait()})
      for (const ui::Theme& theme : {ui::sun_theme(), ui::dusk_theme()})
        good = draw_one(state, panel, theme, argv[1]) && good;
  }
  return good ? 0 : 1;
}
