#include "ui/screens/yards/colony_page.h"

#include <algorithm>
#include <span>

#include "ui/screens/answers/answers.h"
#include "ui/screens/base/layout.h"
#include "ui/screens/words/colony_words.h"
#include "ui/screens/yards/colony_form.h"
#include "ui/screens/yards/colony_line.h"

namespace ui {

namespace {

void open(YardsView& v, YardsPage page) {
  v.page_of = page;
  v.panel_page = 0;
  v.said.clear();
  v.written.clear();
  v.typing = {};
}

// Nothing when no walk left a cloth on it.
std::optional<engine::Body> cloth_off(const Look& look, const engine::Colony& c) {
  const std::vector<engine::ComeBackReason> reasons = come_back_of(look, c.id);
  const bool covered = std::any_of(reasons.begin(), reasons.end(), [](const auto& r) {
    return r.why == engine::ComeBackWhy::LeftCovered;
  });
  if (!covered || !c.last_walk) return std::nullopt;
  return engine::Body{engine::ColonyUncovered{*c.last_walk, c.id}};
}

Ask act_on(Touch& t, Rect& room, const Look& look, YardsView& v, const engine::Colony& c) {
  const auto off = cloth_off(look, c);
  std::vector<Act> list = {{.label = "Count mites", .surface = Surface::Action, .big = true},
                           {.label = "Change"},
                           {.label = "Write a note", .mark = Mark::More},
                           {.label = "Other treatment"},
                           {.label = "Move to yard"},
                           {.label = "Colony lost"}};
  if (!come_back_of(look, c.id).empty())
    list.push_back({.label = "No visit needed", .mark = Mark::Return});
  if (off) {
    list.front() = {.label = "Count mites"};
    list.insert(list.begin(), {.label = "Cloth is off", .surface = Surface::Action, .big = true});
  }
  auto tapped = acts(t, room, list);
  if (!tapped) return {};
  if (off && *tapped == 0) return *off;
  if (off) --*tapped;
  if (*tapped == 0) v.count = {};
  if (*tapped == 3) v.treatment = {};
  constexpr YardsPage kPages[] = {YardsPage::Count,     YardsPage::ColonyForm, YardsPage::Note,
                                  YardsPage::Treatment, YardsPage::Move,       YardsPage::Lost,
                                  YardsPage::Settle};
  open(v, kPages[*tapped]);
  if (*tapped == 1) draft_of(c, v);
  return {};
}

// How it is now: boxes, whether it needs a visit and why, the keeper's own remark.
void colony_now(Touch& t, Rect& room, const Look& look, const engine::Colony& c) {
  int only = 0;
  const Row row = colony_state(look, c);
  list_rows(t, cut_top(room, t.least_h(), t.mm(1)), only, std::span(&row, 1), RowKind::Shown);
  for (const std::string& words : {come_back_words(look, c.id), c.note}) {
    if (words.empty()) continue;
    const float high = text_height(t, words, room.w, Size::Small) + t.mm(1);
    remark(t, cut_top(room, std::min(high, room.h * 0.25F), t.mm(1)), words);
  }
}

}  // namespace

Ask colony_page(Touch& t, Rect room, const Look& look, YardsView& v, const engine::Colony& c) {
  bool back = false;
  head(t, room, c.name, look.farm.yards.at(c.yard).name, &back);
  Ask ask = act_on(t, room, look, v, c);
  colony_now(t, room, look, c);
  colony_line(t, room, look, v, c.id);
  if (back) v.colony.reset();
  return ask;
}

}  // namespace ui
