// ui/screens/yards/yard_pages.h -- the pages behind the list of yards. Internal to ui/screens.
#pragma once
#include <string>
#include <vector>

#include "ui/screens/answers/answers.h"
#include "ui/screens/base/layout.h"
#include "ui/screens/state/yards_state.h"
#include "ui/screens/words/colony_words.h"

namespace ui {

// yard_page.cpp: one yard, its colonies as a list or a map.
Ask yard_page(Touch& t, Rect room, const Look& look, YardsView& v, const engine::Yard& yard);
// yard_more.cpp: rename, note, give up.
Ask yard_more(Touch& t, Rect room, const Look& look, YardsView& v, const engine::Yard& yard);
// rounds_page.cpp: the course of a yard; planning and changing it.
Ask rounds_page(Touch& t, Rect room, const Look& look, YardsView& v, const engine::Yard& yard);
Ask plan_rounds(Touch& t, Rect room, const Look& look, YardsView& v, const engine::Yard& yard);
// colony_form.cpp: adding and changing a colony.
Ask colony_form(Touch& t, Rect room, const Look& look, YardsView& v, const engine::Yard& yard);
void draft_new_colony(const Look& look, YardsView& v, const engine::Yard& yard);
void draft_of(const engine::Colony& colony, YardsView& v);
// yard_driving.cpp
Ask driving_page(Touch& t, Rect room, const Look& look, YardsView& v, const engine::Yard& yard);
// yard_gate.cpp
Ask gate_page(Touch& t, Rect room, const Look& look, YardsView& v, const engine::Yard& yard);
// colony_page.cpp: what is known about one colony.
Ask colony_page(Touch& t, Rect room, const Look& look, YardsView& v, const engine::Colony& colony);
// colony_line.cpp: all that happened to it, newest first.
void colony_line(Touch& t, const Rect& rect, const Look& look, YardsView& v,
                 engine::ColonyId colony);
// colony_notes.cpp: phrases and own words; settle, lose and move.
Ask note_page(Touch& t, Rect room, const Look& look, YardsView& v, const engine::Yard& yard,
              const engine::Colony* colony);
Ask settle_page(Touch& t, Rect room, const Look& look, YardsView& v, const engine::Colony& colony);
Ask lost_page(Touch& t, Rect room, const Look& look, YardsView& v, const engine::Colony& colony);
Ask move_page(Touch& t, Rect room, const Look& look, YardsView& v, const engine::Colony& colony);
// treatment_page.cpp: another treatment than vapor in a walk.
Ask treatment_page(Touch& t, Rect room, const Look& look, YardsView& v,
                   const engine::Colony& colony);

}  // namespace ui
