// ui/app/stage.h -- the display, the letters, the finger and the app on it: one code path for the
// window and for played scripts.
//
// Owns Dear ImGui's context. One thread only.
#pragma once
#include <functional>
#include <memory>
#include <optional>
#include <string>
#include <utility>

#include "ui/app/app.h"
#include "ui/platform/display.h"
#include "ui/platform/input.h"

struct ImGuiContext;
struct ImGuiIO;

namespace ui {

class Stage {
 public:
  // Takes the display; NotFound when the letters are not installed.
  [[nodiscard]] static engine::Result<std::unique_ptr<Stage>> on(Display display);
  ~Stage();
  Stage(const Stage&) = delete;
  Stage& operator=(const Stage&) = delete;

  [[nodiscard]] Input& input() { return input_; }
  [[nodiscard]] Display& display() { return *display_; }

  // Builds a frame for each press and lift that waits and one more, and shows the last one.
  // Returns how many frames were built. `touch_ms`: when the input was asked, in milliseconds since
  // boot; who shows an App tells it when that was done (App::shown).
  int show(App& app, const engine::Stamp& now, std::int64_t touch_ms);
  // The same for a page that needs no farm: what to say when there is no App to be had.
  using Page = std::function<void(const FrameAt&)>;
  int show(const Page& page, Colour ground, const engine::Stamp& now, std::int64_t touch_ms);
  // Takes over what the window said: size, lost pictures. False: it wants to be closed.
  [[nodiscard]] bool obey_window();
  // What was typed since the last call, by a keyboard or a scanner (ui/platform/input.h).
  [[nodiscard]] std::string take_typed() { return std::exchange(typed_, {}); }
  engine::Status save_png(const std::string& path);

 private:
  explicit Stage(Display display);
  engine::Status letters();
  int build(const Page& page, const engine::Stamp& now, std::int64_t touch_ms);
  void present(Colour ground);

  std::optional<Display> display_;  // goes before the context whose letters it shows
  Input input_;
  ImGuiContext* context_ = nullptr;
  Fonts fonts_;
  std::int64_t shown_at_ms_ = 0;
  std::string typed_;
};

}  // namespace ui
