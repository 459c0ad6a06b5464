// ui/screens/counts/count_pages.h -- entering a count, and how a decision looks. Internal to
// ui/screens.
#pragma once
#include <string>
#include <vector>

#include "engine/season/counts.h"
#include "ui/screens/answers/answers.h"
#include "ui/screens/base/layout.h"
#include "ui/screens/state/count_state.h"
#include "ui/screens/state/yards_state.h"
#include "ui/screens/words/count_words.h"

namespace ui {

// count_entry.cpp: method, mites, bees or hours, and the day; the event of a tap on "Save count".
// `back` is set by the way back.
Ask count_entry(Touch& t, Rect room, const Look& look, CountDraft& draft, Typing& typing,
                const engine::Colony& colony, bool& back);
// count_sample.cpp: the keys for the first sample that the yard's counts lack.
Ask sample_page(Touch& t, const Look& look, CountsView& v, const engine::Yard& yard);
// Opens the keys for the mites at once; those for the bees or hours follow.
void start_count(CountDraft& draft, Typing& typing);

// count_page.cpp: counting a colony from its own page.
Ask count_page(Touch& t, Rect room, const Look& look, YardsView& v, const engine::Colony& colony);
// counts_yard.cpp: the colonies of a yard as dots with limits, the decision and the advice.
void counts_yard(Touch& t, Rect room, const Look& look, CountsView& v, const engine::Yard& yard);
// counts_growth.cpp: what is to be expected to the season's end if nobody treats.
void growth_page(Touch& t, Rect room, const Look& look, CountsView& v, const engine::Yard& yard);

}  // namespace ui
