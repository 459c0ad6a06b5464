// ui/screens/state/alarms_state.h -- which page of what is wrong is shown.
#pragma once

namespace ui {

struct AlarmsView {
  int page = 0;
};

}  // namespace ui
