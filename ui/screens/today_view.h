#pragma once
#include <string>

namespace ui {

struct TodayView {
  int page = 0;
  std::string chosen;  // id of the row whose details are shown; empty: the most urgent
};

}  // namespace ui
