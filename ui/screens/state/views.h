// ui/screens/state/views.h -- the view state of all screens together, and the screens themselves.
#pragma once
#include "ui/screens/answers/plan_cache.h"
#include "ui/screens/answers/season_cache.h"
#include "ui/screens/base/screen.h"
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
  SeasonCache season;
  PlanCache plans;
};

// Each draws into `room` (the screen without the bar of screens).
Ask today_screen(Touch& t, const Rect& room, const Look& look, Views& views);
Ask yards_screen(Touch& t, const Rect& room, const Look& look, Views& views);
Ask walk_screen(Touch& t, const Rect& room, const Look& look, Views& views);
Ask counts_screen(Touch& t, const Rect& room, const Look& look, Views& views);
Ask courses_screen(Touch& t, const Rect& room, const Look& look, Views& views);
Ask kit_screen(Touch& t, const Rect& room, const Look& look, Views& views);
Ask register_screen(Touch& t, const Rect& room, const Look& look, Views& views);
Ask setup_screen(Touch& t, const Rect& room, const Look& look, Views& views);

// To the colony whose tag was scanned: in a walk under way it is the next one to be dealt with,
// else its own page opens. False, and nothing changes: the farm has no such colony.
bool jump_to(const engine::Farm& farm, engine::DeviceId device, Views& views,
             engine::ColonyId colony);

// The bar of screens and the current one above it; keeps Views::screen.
Ask all_screens(Touch& t, const Look& look, Views& views);

}  // namespace ui
