#include "ui/commands/notice.h"

#include <utility>
#include <vector>

#include "ui/touch/widgets.h"

namespace ui {

Notice::Notice(std::string line, bool may_begin)
    : line_(std::move(line)), theme_(sun_theme()), may_begin_(may_begin) {}

void Notice::draw(const FrameAt& at) {
  touch_.begin(
      {at.width, at.height, at.px_per_mm, &theme_, at.fonts, at.touch_ms, at.touch_earliest_ms});
  std::vector<DialogButton> buttons{{"Quit", Surface::Button, false}};
  if (may_begin_) buttons.push_back({"Begin a new store", Surface::Warning, true});
  const std::string line =
      may_begin_ ? line_ +
                       " A new store can be begun here; what stands there is kept under "
                       "another name."
                 : line_;
  const auto chosen = dialog(touch_, "Duskwalk cannot open", line, buttons);
  quit_ = quit_ || chosen.has_value();
  begin_ = begin_ || chosen == 1;
}

bool Notice::turn(Stage& stage, const engine::Stamp& now) {
  stage.show([this](const FrameAt& at) { draw(at); }, theme_[Surface::Page].ground, now,
             now.since_boot.count());
  return !quit_;
}

}  // namespace ui
