#pragma once

namespace ui {

struct TodayView {
  int page = 0;
};

}  // namespace ui
