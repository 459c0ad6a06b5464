// ui/screens/words/count_words.h -- how a count and the decision it gives are said.
#pragma once
#include <string>
#include <vector>

#include "engine/agenda/agenda.h"
#include "engine/season/counts.h"
#include "ui/screens/base/screen.h"
#include "ui/screens/state/count_state.h"

namespace ui {

struct DecisionLook {
  const char* tag;
  Mark mark;
  Surface surface;
};
// Green only where the count decides; where no count would and the figure itself has to
// (`by_point_estimate`), a yard just below its threshold must not look safe.
[[nodiscard]] DecisionLook look_of(engine::mites::Decision d, bool by_point_estimate);
// Of a yard, with what was done about it since it was counted.
[[nodiscard]] DecisionLook look_of(const engine::YardAnswer& answer,
                                   const engine::YardCount& count);
// What the numbers typed so far say, before they are saved; never a bare rate.
[[nodiscard]] std::vector<std::string> draft_lines(const Look& look, const CountDraft& draft,
                                                   const engine::Colony& colony);
[[nodiscard]] bool of_bees(engine::CountMethod m);
// Opens the keys for the samples that the counts of the view's yard lack, one after another.
void ask_for_samples(CountsView& view);
// What is missing, one line a count: "B2, 3 Aug: 12 mites on how many bees?".
[[nodiscard]] std::vector<std::string> sample_lines(const Look& look, engine::YardId yard);

}  // namespace ui
