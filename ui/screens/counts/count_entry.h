// ui/screens/counts/count_entry.h -- entering a count.
#pragma once
#include "ui/screens/base/screen.h"
#include "ui/screens/base/typing.h"
#include "ui/screens/state/count_state.h"

namespace ui {

// Method, mites, bees or hours, and the day; the event of a tap on "Save count".
// `back` is set by the way back.
Ask count_entry(Touch& t, Rect room, const Look& look, CountDraft& draft, Typing& typing,
                const engine::Colony& colony, bool& back);
// Opens the keys for the mites at once; those for the bees or hours follow.
void start_count(CountDraft& draft, Typing& typing);

}  // namespace ui
