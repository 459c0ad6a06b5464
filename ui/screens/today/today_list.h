// ui/screens/today/today_list.h -- Today's list of large rows, and the hives of a walk under way.
#pragma once
#include <string>
#include <vector>

#include "ui/screens/state/today_state.h"
#include "ui/screens/today/due_items.h"

namespace ui {

// The item of that id, or the first. Requires that there is one.
[[nodiscard]] std::size_t chosen_item(const std::vector<DueItem>& items, const std::string& id);
void list_items(Touch& t, const Rect& room, TodayView& view, const std::vector<DueItem>& items);
// How far the walk is: each hive with its state on it.
void draw_stops(Touch& t, const Rect& rect, const engine::Walk& walk);

}  // namespace ui
