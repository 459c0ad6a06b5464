// Counting a colony from its own page.
#include "ui/screens/counts/count_pages.h"

namespace ui {

Ask count_page(Touch& t, Rect room, const Look& look, YardsView& v, const engine::Colony& c) {
  bool back = false;
  Ask asked = count_entry(t, room, look, v.count, v.typing, c, back);
  const bool save = std::holds_alternative<engine::Body>(asked);
  if (back || save) v.page_of = YardsPage::None;
  return asked;
}

}  // namespace ui
