// ui/screens/today/today_pages.h -- the parts that Today is made of.
#pragma once
#include "ui/screens/state/views.h"

namespace ui {

// When the bees are home next, and how many yards that holds; opens the trip.
void window_button(Touch& t, const Rect& rect, const Tonight& tonight, TodayView& view);
// In place of Today while TodayView::trip.
Ask trip_page(Touch& t, const Rect& room, const Look& look, Views& views);
// The headline of the pack list, in a panel that says whether something is missing.
void pack_panel(Touch& t, const Rect& rect, std::string_view title, const engine::PackList* pack);

}  // namespace ui
