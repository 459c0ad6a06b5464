#include "tests/ui/screens/gallery_page.h"

#include <imgui.h>

#include <cstdio>

#include "ui/platform/display.h"
#include "ui/touch/faults.h"

namespace test {

namespace {

struct Page {
  const Panel& panel;
  const ui::Theme& theme;
  std::string name;
  std::string file;
};

bool draw_page(const Page& page, const Outfit& outfit, const std::function<void(Evening&)>& reach) {
  ui::DisplayOptions options;
  options.width_px = static_cast<int>(page.panel.width);
  options.height_px = static_cast<int>(page.panel.height);
  auto display = ui::Display::open_headless(options);
  if (!display.ok()) return std::fprintf(stderr, "%s\n", display.status().message().c_str()), false;
  Evening evening(outfit, page.panel, page.theme);
  if (!display.value().use_atlas(*ImGui::GetIO().Fonts).ok()) return false;
  reach(evening);
  evening.redraw();
  for (const std::string& fault : ui::faults(evening.touch()))
    std::printf("%s: %s\n", page.name.c_str(), fault.c_str());
  const auto saved = display.value().save_png(*ImGui::GetDrawData(), page.file);
  if (!saved.ok()) std::fprintf(stderr, "%s\n", saved.message().c_str());
  return saved.ok();
}

}  // namespace

bool draw_state(const std::string& name, const Outfit& outfit,
                const std::function<void(Evening&)>& reach, const std::string& folder) {
  bool good = true;
  for (const Panel& panel : {landscape(), portrait()}) {
    for (const ui::Theme& theme : {ui::sun_theme(), ui::dusk_theme(), ui::night_theme()}) {
      const std::string full = name + "-" + theme.name + "-" + panel.name;
      good = draw_page({panel, theme, full, folder + "/" + full + ".png"}, outfit, reach) && good;
    }
  }
  return good;
}

}  // namespace test
