#pragma once
#include <string>

#include "ui/screens/base/typing.h"

namespace ui {

struct TodayView {
  int page = 0;
  std::string chosen;  // id of the row whose details are shown; empty: the most urgent
  bool trip = false;   // the trip is shown
  int trip_page = 0, notes_page = 0;
  Typing typing;  // of the trip: the air that is expected
};

}  // namespace ui
