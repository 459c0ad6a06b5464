// Counting a colony from its own page.
#include "ui/screens/counts/count_page.h"

#include "engine/season/counts.h"
#include "ui/screens/answers/answers.h"
#include "ui/screens/base/layout.h"
#include "ui/screens/counts/count_entry.h"
#include "ui/screens/words/count_words.h"

namespace ui {

Ask count_page(Touch& t, Rect room, const Look& look, YardsView& v, const engine::Colony& c) {
  bool back = false;
  Ask asked = count_entry(t, room, look, v.count, v.typing, c, back);
  const bool save = std::holds_alternative<engine::Body>(asked);
  if (back || save) v.page_of = YardsPage::None;
  return asked;
}

}  // namespace ui
