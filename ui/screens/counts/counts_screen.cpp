// Counts: the yards, the colonies of one with their limits, entering a count, and what it decides.
#include "ui/screens/counts/counts_screen.h"

#include <fmt/format.h>

#include "engine/season/counts.h"
#include "ui/screens/answers/answers.h"
#include "ui/screens/base/cards.h"
#include "ui/screens/base/layout.h"
#include "ui/screens/base/pictured.h"
#include "ui/screens/counts/count_dots.h"
#include "ui/screens/counts/count_entry.h"
#include "ui/screens/counts/count_sample.h"
#include "ui/screens/counts/counts_growth.h"
#include "ui/screens/counts/counts_yard.h"
#include "ui/screens/words/count_words.h"

namespace ui {

namespace {

Card yard_card(const Look& look, const engine::Yard& yard) {
  Card row{.label = yard.name};
  row.title = yard.name;
  row.id = engine::text(yard.id);
  row.picture = icon_picture(Icon::Counts);
  const engine::YardCount* y = look.answers.season.yard(look.farm, yard.id, look.today());
  if (y == nullptr) {
    const std::size_t asked = sample_lines(look, yard.id).size();
    row.second = asked > 0 ? engine::counted(asked, "count", "counts") + " without its sample"
                           : std::string("never washed");
    row.tag = asked > 0 ? "SAMPLE?" : "NOT COUNTED", row.mark = Mark::Open;
    return row;
  }
  engine::Date last = y->colonies.front().spell.last;
  for (const auto& c : y->colonies) last = std::max(last, c.spell.last);
  row.second = fmt::format("{} of {}, {}", y->colonies.size(),
                           engine::counted(y->in_yard, "colony", "colonies"),
                           from_today(last, look.today()));
  const DecisionLook shown =
      look_of(look.answers.season.answer(look.farm, yard.id, look.today()), *y);
  row.tag = shown.tag, row.mark = shown.mark, row.tag_surface = shown.surface;
  row.picture = ring_picture(fmt::format("{:.1f}", y->estimate.mean_per_100), shown.surface);
  row.strip = [y](Touch& t, const Rect& rect) { draw_count_dots(t, rect, *y); };
  return row;
}

Ask yard_list(Touch& t, Rect room, const Look& look, CountsView& v) {
  const auto all = engine::yards(look.farm);
  head(t, room, "Counts", "mites on 100 bees, yard by yard; the stroke is your threshold");
  if (all.empty()) {
    if (empty_page(t, room, Icon::Yards, "Mites are counted in a yard: there is none yet.",
                   "Add a yard"))
      return ToNewYard{};
    return {};
  }
  const auto card_at = [&](std::size_t i) { return yard_card(look, *all[i]); };
  if (const auto tapped = cards(t, room, v.page, all.size(), card_at)) {
    v.yard = all[*tapped]->id;
    v.page_of = CountsPage::Yard;
  }
  return {};
}

Row colony_row(const Look& look, const engine::Colony& colony) {
  Row row{.title = colony.name};
  row.id = engine::text(colony.id);
  const engine::ColonyCount* c = look.answers.season.colony(look.farm, colony.id, look.today());
  if (c == nullptr) {
    row.second = "never washed";
    return row;
  }
  const engine::mites::Wash all = c->spell.pooled();
  row.second = fmt::format("{} mites on {} bees, {}", all.mites, all.bees,
                           from_today(c->spell.last, look.today()));
  const DecisionLook shown = look_of(c->decision, c->by_point_estimate);
  row.tag = shown.tag, row.mark = shown.mark, row.tag_surface = shown.surface;
  return row;
}

void choose_colony(Touch& t, Rect room, const Look& look, CountsView& v, const engine::Yard& yard) {
  bool back = false;
  head(t, room, "Count which colony?", yard.name, &back);
  const auto all = engine::colonies_of(look.farm, yard.id);
  const auto row_at = [&](std::size_t i) {
    Row row = colony_row(look, *all[i]);
    fit_row(t, row, room.w);
    return row;
  };
  if (const auto tapped = list_rows(t, room, v.colony_page, all.size(), row_at)) {
    v.colony = all[*tapped]->id;
    v.page_of = CountsPage::Entry;
    start_count(v.draft, v.typing);
  }
  if (back) v.page_of = CountsPage::Yard;
}

Ask enter(Touch& t, const Rect& room, const Look& look, CountsView& v,
          const engine::Colony& colony) {
  bool back = false;
  Ask asked = count_entry(t, room, look, v.draft, v.typing, colony, back);
  if (back) v.page_of = CountsPage::Colonies;
  if (std::holds_alternative<engine::Body>(asked)) v.page_of = CountsPage::Said;
  return asked;
}

// What was just saved decides, or what would.
void said(Touch& t, Rect room, const Look& look, CountsView& v, const engine::Colony& colony) {
  head(t, room, colony.name, look.farm.yards.at(colony.yard).name + ": count saved");
  const engine::ColonyCount* c =
      of_bees(v.draft.method) ? look.answers.season.colony(look.farm, colony.id, look.today())
                              : nullptr;
  const bool more = c != nullptr && c->decision == engine::mites::Decision::Recount;
  std::vector<Act> list = {{.label = "Next colony", .surface = Surface::Action, .big = true},
                           {.label = more ? "Count it again" : "Another count"},
                           {.label = "To the yard"}};
  const auto tapped = acts(t, room, list);
  std::vector<std::string> lines;
  if (c != nullptr) {
    const DecisionLook shown = look_of(c->decision, c->by_point_estimate);
    tag(t, cut_top(room, t.mm(12), t.gap()), shown.tag, shown.mark, shown.surface);
    lines.push_back(c->sentence);
    lines.insert(lines.end(), c->cautions.begin(), c->cautions.end());
    lines.push_back(engine::words(c->threshold));
  } else {
    lines = draft_lines(look, v.draft, colony);
  }
  paragraphs(t, room, v.said_page, lines);
  if (!tapped) return;
  v.page_of = *tapped == 0   ? CountsPage::Colonies
              : *tapped == 1 ? CountsPage::Entry
                             : CountsPage::Yard;
  if (*tapped == 1) start_count(v.draft, v.typing);
}

}  // namespace

Ask counts_screen(Touch& t, const Rect& room, const Look& look, CountsView& v) {
  const auto yard = v.yard ? look.farm.yards.find(*v.yard) : look.farm.yards.end();
  if (yard == look.farm.yards.end() || yard->second.lost) {
    return yard_list(t, room, look, v);
  }
  const auto colony = v.colony ? look.farm.colonies.find(*v.colony) : look.farm.colonies.end();
  const bool known = colony != look.farm.colonies.end() && !colony->second.lost;
  if (v.page_of == CountsPage::Sample) return sample_page(t, look, v, yard->second);
  if (v.page_of == CountsPage::Entry && known) return enter(t, room, look, v, colony->second);
  if (v.page_of == CountsPage::Said && known)
    said(t, room, look, v, colony->second);
  else if (v.page_of == CountsPage::Growth)
    growth_page(t, room, look, v, yard->second);
  else if (v.page_of == CountsPage::Colonies)
    choose_colony(t, room, look, v, yard->second);
  else
    counts_yard(t, room, look, v, yard->second);
  return {};
}

}  // namespace ui
