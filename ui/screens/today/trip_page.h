// ui/screens/today/trip_page.h -- the trip on a clock: when to leave, which yard when, when home
// again.
#pragma once
#include "ui/screens/answers/tonight.h"
#include "ui/screens/base/screen.h"
#include "ui/screens/state/today_state.h"

namespace ui {

// When the bees are home next, and how many yards that holds; opens the trip.
void window_button(Touch& t, const Rect& rect, const Tonight& tonight, TodayView& view);
// In place of Today while TodayView::trip.
Ask trip_page(Touch& t, const Rect& room, const Look& look, TodayView& view);

}  // namespace ui
