#pragma once

namespace ui {

struct SetupView {
  int page = 0;
};

}  // namespace ui
