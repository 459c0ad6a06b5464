#pragma once

namespace ui {

struct RegisterView {
  int page = 0;
};

}  // namespace ui
