// tests/support/rig.h -- a screen without a screen: ImGui, letters, a finger and a clock for tests.
#pragma once
#include <functional>
#include <string>

#include "ui/touch/touch.h"

struct ImGuiContext;

namespace test {

struct Panel {
  std::string name;
  float width = 1280, height = 800, px_per_mm = 0;
};
// 10.1 inch across, landscape and portrait: 5.884 px a millimetre.
Panel landscape();
Panel portrait();
Panel large();  // 1920 x 1200 on the same 10.1 inches

// Fails the test program if the letters are not there: install fonts-dejavu-core.
class Rig {
 public:
  using Draw = std::function<void(ui::Touch&)>;

  explicit Rig(const Panel& panel = landscape(), const ui::Theme& theme = ui::sun_theme());
  ~Rig();
  Rig(const Rig&) = delete;
  Rig& operator=(const Rig&) = delete;

  void show(Draw draw) { draw_ = std::move(draw), frame(); }
  void frame();                      // one frame at `now`, with the finger as it is, shown at once
  void frame_at(ui::TouchTime at);   // the same for a press or lift of that time, not shown
  void turn_to(const Panel& panel);  // another screen, the same page
  void wear(const ui::Theme& theme) { theme_ = theme, frame(); }

  void press(float x, float y);
  void move(float x, float y);
  void lift();
  // In the middle of the target of that label, 60 ms long, and 1 s later, so that no guard acts.
  void tap(const std::string& label);
  [[nodiscard]] ui::Target find(const std::string& label) const;
  [[nodiscard]] bool sees(const std::string& words) const;

  std::int64_t now = 1000;
  ui::Touch touch;

 private:
  Panel panel_;
  ui::Theme theme_;
  ui::Fonts fonts_;
  ImGuiContext* context_ = nullptr;
  Draw draw_;
};

}  // namespace test
