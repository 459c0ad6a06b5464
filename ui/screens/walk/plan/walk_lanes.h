// ui/screens/walk/plan/walk_lanes.h -- a walk as lanes over time: the operator, each vaporizer,
// each cloth.
#pragma once
#include <vector>

#include "ui/screens/base/screen.h"
#include "ui/touch/plot.h"

namespace ui {

// Of a plan: visits in their order, times since the walk was opened. What lies or stands already
// when the plan begins is in `walk`.
[[nodiscard]] Lanes lanes_of_plan(const Look& look, const engine::Walk& walk,
                                  const std::vector<engine::PlannedVisit>& visits);

// The walk before its first visit, for a plan that begins there.
[[nodiscard]] engine::Walk walk_as_opened(engine::Walk walk);

// Of what was done, up to now.
[[nodiscard]] Lanes lanes_of_done(const Look& look, const engine::Walk& walk);

// The same span of time for both, so that they can be laid one over the other.
void share_scale(Lanes& a, Lanes& b);

// As many lanes as are easy to read, with a pager when that is not all.
void draw_lanes(Touch& t, Rect room, int& page, const Lanes& all);

}  // namespace ui
