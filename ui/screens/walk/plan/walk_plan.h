// ui/screens/walk/plan/walk_plan.h -- the plan of a walk that is not open yet. Internal to the walk
// screens.
#pragma once
#include <optional>

#include "ui/screens/state/views.h"
#include "ui/touch/plot.h"

namespace ui {

// What there is to plan; nullopt: nothing (engine::case_of), or the Look brings no guide.
[[nodiscard]] std::optional<PlanAsk> plan_ask(const Look& look, const WalkView& view);

// Puts the plan and the seal it keeps into the event that opens the walk.
void add_plan(const Look& look, Views& views, engine::WalkOpened& opened);

// "Plan", with when the walk would end.
void draw_plan_button(Touch& t, const Rect& rect, const Look& look, Views& views);

// As many lanes as are easy to read, with a pager when that is not all.
void draw_lanes(Touch& t, Rect room, int& page, const Lanes& all);

// The rest of the walk under way (walk_compare.cpp).
void walk_plan_now(Touch& t, const Rect& room, const Look& look, const engine::Walk& walk,
                   WalkView& view);

// After the walk: the button that leads to the comparison (WalkView::comparing), and the comparison
// itself.
void compare_button(Touch& t, const Rect& rect, const engine::Walk& walk, WalkView& view);
void walk_compare(Touch& t, const Rect& room, const Look& look, const engine::Walk& walk,
                  WalkView& view);

// The pages OpenPage::Plan and PlanCloths.
void walk_plan(Touch& t, const Rect& room, const Look& look, Views& views);

}  // namespace ui
