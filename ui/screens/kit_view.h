#pragma once

namespace ui {

struct KitView {
  int page = 0;
};

}  // namespace ui
