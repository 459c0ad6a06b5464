#include "tests/support/desk.h"

#include <doctest/doctest.h>

namespace test {
namespace {

ui::Display open_headless(int width_px, int height_px) {
  ui::DisplayOptions o;
  o.width_px = width_px;
  o.height_px = height_px;
  auto display = ui::Display::open_headless(o);
  REQUIRE_MESSAGE(display.ok(), display.status().message());
  return std::move(display).value();
}

ui::Fonts load_fonts(float px_per_mm) {
  const auto face = ui::find_face();
  REQUIRE_MESSAGE(face.ok(), face.status().message());
  auto fonts = ui::build_fonts(*ImGui::GetIO().Fonts, px_per_mm, face.value());
  REQUIRE_MESSAGE(fonts.ok(), fonts.status().message());
  return fonts.value();
}

}  // namespace

Desk::Desk(int width_px, int height_px)
    : context_(ImGui::CreateContext()), display_(open_headless(width_px, height_px)) {
  ImGuiIO& io = ImGui::GetIO();
  io.IniFilename = nullptr;
  io.DisplaySize = ImVec2(static_cast<float>(width_px), static_cast<float>(height_px));
  io.DeltaTime = 1.0f / 60;
  io.BackendFlags |= ImGuiBackendFlags_RendererHasVtxOffset;  // as the stage says
  fonts_ = load_fonts(display_.px_per_mm());
  REQUIRE(display_.use_atlas(*io.Fonts).ok());
  input.set_size(width_px, height_px);
}

Desk::~Desk() { ImGui::DestroyContext(context_); }

const ImDrawData& Desk::build(const Screen& screen) {
  ImGui::NewFrame();
  ImGui::SetNextWindowPos(ImVec2(0, 0));
  ImGui::SetNextWindowSize(ImGui::GetIO().DisplaySize);
  ImGui::Begin("screen", nullptr, ImGuiWindowFlags_NoDecoration | ImGuiWindowFlags_NoMove);
  screen();
  ImGui::End();
  ImGui::Render();
  return *ImGui::GetDrawData();
}

int Desk::run(const Screen& screen) {
  return input.run(ImGui::GetIO(), 1.0 / 60, [&](const auto&) { build(screen); });
}

}  // namespace test
