#include "ui/screens/yards_parts.h"

namespace ui {

namespace {

void open(YardsView& v, YardsPage page) {
  v.page_of = page;
  v.panel_page = 0;
  v.said.clear();
  v.written.clear();
  v.typing = {};
}

void act_on(Touch& t, Rect& room, const Look& look, YardsView& v, const engine::Colony& c) {
  const bool visit = !come_back_of(look, c.id).empty();
  std::vector<Act> list = {{.label = "Count mites", .surface = Surface::Action, .big = true},
                           {.label = "Change"},
                           {.label = "Write a note", .mark = Mark::More},
                           {.label = "Other treatment"},
                           {.label = "Move to yard"},
                           {.label = "Colony lost"}};
  if (visit) list.push_back({.label = "No visit needed", .mark = Mark::Return});
  const auto tapped = acts(t, room, list);
  if (!tapped) return;
  if (*tapped == 0) v.count = {};
  if (*tapped == 3) v.treatment = {};
  constexpr YardsPage kPages[] = {YardsPage::Count,     YardsPage::ColonyForm, YardsPage::Note,
                                  YardsPage::Treatment, YardsPage::Move,       YardsPage::Lost,
                                  YardsPage::Settle};
  open(v, kPages[*tapped]);
  if (*tapped == 1) draft_of(c, v);
}

}  // namespace

Ask colony_page(Touch& t, Rect room, const Look& look, YardsView& v, const engine::Colony& c) {
  bool back = false;
  head(t, room, c.name, look.farm.yards.at(c.yard).name, &back);
  act_on(t, room, look, v, c);
  const std::vector<Row> rows = colony_facts(look, c);
  list_rows(t, room, v.fact_page, rows, RowKind::Shown);
  if (back) v.colony.reset();
  return {};
}

}  // namespace ui
