// tests/ui/screens/drawing_gallery.cpp -- hives in every state and size, as pictures:
// drawing_gallery FOLDER. Not a test.
#include <imgui.h>

#include <cstdio>
#include <string>

#include "tests/support/rig.h"
#include "ui/platform/display.h"
#include "ui/screens/base/drawing.h"
#include "ui/screens/base/roles.h"

namespace {

using ui::HiveDrawing;
using ui::HiveState;

const std::vector<std::pair<std::string, HiveDrawing>> kHives = {
    {"to do", {2}},
    {"supers", {2, 2}},
    {"next", {1, 0, HiveState::Next}},
    {"vapor", {2, 0, HiveState::Vapor, 0.6F}},
    {"due", {2, 0, HiveState::Vapor, 0, true}},
    {"covered", {2, 0, HiveState::Covered, 0.7F, false, "3"}},
    {"one box", {1, 0, HiveState::Covered, 0.3F, false, "12"}},
    {"done", {2, 0, HiveState::Done}},
    {"small", {1, 1, HiveState::Done}},
    {"again", {2, 0, HiveState::ComeBack}},
    {"skipped", {2, 0, HiveState::Skipped}},
    {"three", {3, 1, HiveState::Vapor, 0.2F}}};

void draw_all(ui::Touch& t) {
  ui::Rect room = ui::inset(t.screen(), t.gap());
  for (const float side : {26.0F, 16.0F, 11.0F}) {
    ui::Rect line = ui::cut_top(room, t.mm(side + 7), t.mm(2));
    const float pitch = line.w / static_cast<float>(kHives.size());
    for (std::size_t i = 0; i < kHives.size(); ++i) {
      const ui::Rect cell{line.x + pitch * static_cast<float>(i), line.y, pitch, line.h};
      draw_hive(t, {cell.x, cell.y, cell.w, t.mm(side)}, kHives[i].second);
      say(t, {cell.x, cell.y + t.mm(side), cell.w, t.mm(6)}, kHives[i].first, ui::Role::Small,
          {.align = ui::Align::Center});
    }
  }
  const ui::InkPen pen{t.draw(), t.theme()[ui::Surface::Page].ink, t.mm(0.7F)};
  for (int i = 0; i < 8; ++i) draw_wind(pen, ui::cut_left(room, t.mm(12), t.mm(3)), i * 45);
  draw_way(pen, {room.x, room.y, 60, 60}, {room.x + 300, room.y + 40, 60, 60});
}

bool picture(const ui::Theme& theme, const std::string& folder) {
  const test::Panel panel = test::landscape();
  ui::DisplayOptions options;
  options.width_px = 1280, options.height_px = 800;
  auto display = ui::Display::open_headless(options);
  if (!display.ok()) return false;
  test::Rig rig(panel, theme);
  if (!display.value().use_atlas(*ImGui::GetIO().Fonts).ok()) return false;
  rig.show(draw_all);
  return display.value()
      .save_png(*ImGui::GetDrawData(), folder + "/hives-" + theme.name + ".png")
      .ok();
}

}  // namespace

int main(int argc, char** argv) {
  if (argc != 2) return std::fprintf(stderr, "drawing_gallery FOLDER\n"), 2;
  bool good = true;
  for (const ui::Theme& theme : {ui::sun_theme(), ui::dusk_theme(), ui::night_theme()})
    good = picture(theme, argv[1]) && good;
  return good ? 0 : 1;
}
