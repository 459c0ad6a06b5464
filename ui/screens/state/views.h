// ui/screens/state/views.h -- the view state of all screens together.
#pragma once
#include "ui/screens/base/go_to.h"
#include "ui/screens/state/alarms_state.h"
#include "ui/screens/state/count_state.h"
#include "ui/screens/state/courses_state.h"
#include "ui/screens/state/kit_state.h"
#include "ui/screens/state/register_state.h"
#include "ui/screens/state/setup_state.h"
#include "ui/screens/state/today_state.h"
#include "ui/screens/state/walk_state.h"
#include "ui/screens/state/yards_state.h"

namespace ui {

struct Views {
  ScreenName screen = ScreenName::Today;
  TodayView today;
  YardsView yards;
  WalkView walk;
  CountsView counts;
  CoursesView courses;
  KitView kit;
  RegisterView book;
  SetupView setup;
  AlarmsView alarms;
};

}  // namespace ui
