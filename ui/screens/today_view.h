#pragma once
#include <string>

namespace ui {

struct TodayView {
  int page = 0;
  std::string chosen;  // id of the row whose details are shown; empty: the most urgent
  bool trip = false;   // the trip is shown
  int trip_page = 0, notes_page = 0;
};

}  // namespace ui
