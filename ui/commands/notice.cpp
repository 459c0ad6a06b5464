#include "ui/commands/notice.h"

#include <array>

#include "ui/touch/widgets.h"

namespace ui {

Notice::Notice(std::string line) : line_(std::move(line)), theme_(sun_theme()) {}

void Notice::draw(const FrameAt& at) {
  touch_.begin({at.width, at.height, at.px_per_mm, &theme_, at.fonts, at.touch_ms,
                at.touch_earliest_ms});
  const std::array<DialogButton, 1> buttons{{{"Quit", Surface::Button, false}}};
  if (dialog(touch_, "Duskwalk cannot open", line_, buttons)) quit_ = true;
}

bool Notice::turn(Stage& stage, const engine::Stamp& now) {
  stage.show([this](const FrameAt& at) { draw(at); }, theme_[Surface::Page].ground, now,
             now.since_boot.count());
  return !quit_;
}

}  // namespace ui
