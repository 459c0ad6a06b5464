#include "tests/support/rig.h"

#include <imgui.h>

#include <cmath>
#include <map>
#include <memory>
#include <stdexcept>

#include "ui/platform/fonts.h"

namespace test {

namespace {

float px_per_mm(float width, float height, float inches) {
  return std::hypot(width, height) / (inches * 25.4F);
}

struct Letters {
  ImFontAtlas atlas;
  ui::Fonts fonts;
};

// Built once for each density: the slow part of a rig.
Letters& letters_for(float density) {
  static std::map<float, std::unique_ptr<Letters>> built;
  auto& letters = built[density];
  if (letters) return *letters;
  letters = std::make_unique<Letters>();
  const auto face = ui::find_face();
  if (!face.ok()) throw std::runtime_error(face.status().message());
  const auto fonts = ui::build_fonts(letters->atlas, density, face.value());
  if (!fonts.ok()) throw std::runtime_error(fonts.status().message());
  letters->fonts = fonts.value();
  return *letters;
}

}  // namespace

Panel landscape() { return {"1280x800", 1280, 800, px_per_mm(1280, 800, 10.1F)}; }
Panel portrait() { return {"800x1280", 800, 1280, px_per_mm(800, 1280, 10.1F)}; }

Panel large() { return {"1920x1200", 1920, 1200, px_per_mm(1920, 1200, 10.1F)}; }

Rig::Rig(const Panel& panel, const ui::Theme& theme) : panel_(panel), theme_(theme) {
  Letters& letters = letters_for(panel.px_per_mm);
  fonts_ = letters.fonts;
  context_ = ImGui::CreateContext(&letters.atlas);
  ImGui::SetCurrentContext(context_);
  ImGuiIO& io = ImGui::GetIO();
  io.IniFilename = nullptr;
  io.DisplaySize = {panel.width, panel.height};
  io.MousePos = {-1e38F, -1e38F};
  io.BackendFlags |= ImGuiBackendFlags_RendererHasVtxOffset;  // as the stage says
}

void Rig::turn_to(const Panel& panel) {
  Letters& letters = letters_for(panel.px_per_mm);
  panel_ = panel;
  fonts_ = letters.fonts;
  ImGuiIO& io = ImGui::GetIO();
  io.Fonts = &letters.atlas;
  io.DisplaySize = {panel.width, panel.height};
  frame();
}

Rig::~Rig() { ImGui::DestroyContext(context_); }

void Rig::frame() {
  frame_at(now);
  touch.shown(now);
}

void Rig::frame_at(ui::TouchTime at) {
  ImGui::GetIO().DeltaTime = 1.0F / 60;
  ImGui::NewFrame();
  touch.begin(
      {panel_.width, panel_.height, panel_.px_per_mm, &theme_, fonts_, at.latest, at.earliest});
  if (draw_) draw_(touch);
  ImGui::Render();
}

void Rig::press(float x, float y) {
  ImGui::GetIO().MousePos = {x, y};
  ImGui::GetIO().MouseDown[0] = true;
  frame();
}

void Rig::move(float x, float y) {
  ImGui::GetIO().MousePos = {x, y};
  frame();
}

void Rig::lift() {
  ImGui::GetIO().MouseDown[0] = false;
  frame();
}

void Rig::tap(const std::string& label) {
  const ui::Target target = find(label);
  now += 1000;
  press(target.rect.mid_x(), target.rect.mid_y());
  now += 60;
  lift();
  frame();  // what the tap changed is on the screen now
}

ui::Target Rig::find(const std::string& label) const {
  for (const ui::Target& target : touch.targets()) {
    if (target.label == label) return target;
  }
  throw std::runtime_error("no target is called " + label);
}

bool Rig::sees(const std::string& words) const {
  for (const ui::ShownText& shown : touch.texts()) {
    if (shown.text.find(words) != std::string::npos) return true;
  }
  return false;
}

}  // namespace test
