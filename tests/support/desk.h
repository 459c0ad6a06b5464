// tests/support/desk.h -- a place to draw and tap without a screen.
//
// An ImGui context with our fonts and a headless display. Frames come from a function; nothing is
// read from a clock.
#pragma once
#include <imgui.h>

#include <functional>

#include "ui/platform/display.h"
#include "ui/platform/fonts.h"
#include "ui/platform/input.h"

namespace test {

class Desk {
 public:
  using Screen = std::function<void()>;  // draws into the open full-screen window

  Desk(int width_px, int height_px);
  Desk(const Desk&) = delete;
  Desk& operator=(const Desk&) = delete;
  ~Desk();

  // Builds one frame of `screen`; valid until the next.
  const ImDrawData& build(const Screen& screen);

  // Gives ImGui all touches that wait in `input`.
  int run(const Screen& screen);

  [[nodiscard]] ui::Display& display() { return display_; }
  [[nodiscard]] const ui::Fonts& fonts() const { return fonts_; }

  ui::Input input;

 private:
  ImGuiContext* context_;
  ui::Fonts fonts_;
  ui::Display display_;
};

}  // namespace test
