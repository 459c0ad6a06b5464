// ui/screens/counts/count_dots.h -- a yard's count as dots, one for each colony that was washed.
#pragma once
#include "engine/season/counts.h"
#include "ui/screens/words/count_words.h"
#include "ui/touch/touch.h"

namespace ui {

// Left is no mite, the stroke your threshold, the right end three times as many or more. A dot at
// or over the threshold is filled, one below it is open. With up to three colonies a thin line is
// the range in which the mites lie with 95 %: the fewer bees were washed, the longer it is.
void draw_count_dots(Touch& t, const Rect& rect, const engine::YardCount& count);

// What the yard's count decides: shape and word in the largest type, and the numbers beside it.
void draw_verdict(Touch& t, const Rect& rect, const DecisionLook& look, std::string_view numbers);
[[nodiscard]] float verdict_high(const Touch& t);

}  // namespace ui
