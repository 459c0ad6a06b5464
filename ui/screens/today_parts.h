// ui/screens/today_parts.h -- the parts that Today is made of.
#pragma once
#include "ui/screens/screen.h"
#include "ui/screens/today_view.h"
#include "ui/screens/tonight.h"

namespace ui {

// When the bees are home next, and how many yards that holds; opens the trip.
void window_button(Touch& t, const Rect& rect, const Tonight& tonight, TodayView& view);
// In place of Today while TodayView::trip.
void trip_page(Touch& t, const Rect& room, const Look& look, const Tonight& tonight,
               TodayView& view);

}  // namespace ui
