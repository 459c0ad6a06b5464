// ui/screens/walk/plan/walk_plan.h -- the plan of a walk that is not open yet.
#pragma once
#include <optional>

#include "ui/screens/answers/plan_cache.h"
#include "ui/screens/base/screen.h"
#include "ui/screens/state/walk_state.h"

namespace ui {

// What there is to plan; nullopt: nothing (engine::case_of), or nobody plans.
[[nodiscard]] std::optional<PlanAsk> plan_ask(const Look& look, const WalkView& view);

// Puts the plan and the seal it keeps into the event that opens the walk.
void add_plan(const Look& look, const WalkView& view, engine::WalkOpened& opened);

// "Plan", with when the walk would end.
void draw_plan_button(Touch& t, const Rect& rect, const Look& look, WalkView& view);

// The pages OpenPage::Plan and PlanCloths.
void walk_plan(Touch& t, const Rect& room, const Look& look, WalkView& view);

}  // namespace ui
