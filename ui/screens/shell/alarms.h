// ui/screens/shell/alarms.h -- what is wrong: the cell in the bar of screens that says so, and the
// page behind it.
#pragma once
#include <string>
#include <vector>

#include "ui/screens/base/screen.h"
#include "ui/screens/state/alarms_state.h"

namespace ui {

// "Clock" where one thing is wrong, else "2 alarms"; `troubles` is not empty.
[[nodiscard]] std::string alarm_label(const std::vector<Trouble>& troubles);
// Alarm where something may be lost, else Warning.
[[nodiscard]] Surface alarm_surface(const std::vector<Trouble>& troubles);

// All that is wrong, what to do, and the ways to where it is done.
Ask alarms_page(Touch& t, const Rect& room, const Look& look, AlarmsView& view);

}  // namespace ui
