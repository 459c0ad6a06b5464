// Yards: the list, and which page of a yard or colony is open over it.
#include "ui/screens/yards/yards_screen.h"

#include <fmt/format.h>

#include <algorithm>

#include "engine/rounds/due.h"
#include "engine/season/counts.h"
#include "ui/screens/answers/answers.h"
#include "ui/screens/base/layout.h"
#include "ui/screens/counts/count_page.h"
#include "ui/screens/state/yards_state.h"
#include "ui/screens/words/colony_words.h"
#include "ui/screens/words/count_words.h"
#include "ui/screens/yards/colony_form.h"
#include "ui/screens/yards/colony_kind.h"
#include "ui/screens/yards/colony_notes.h"
#include "ui/screens/yards/colony_page.h"
#include "ui/screens/yards/rounds_page.h"
#include "ui/screens/yards/treatment_page.h"
#include "ui/screens/yards/yard_card.h"
#include "ui/screens/yards/yard_driving.h"
#include "ui/screens/yards/yard_gate.h"
#include "ui/screens/yards/yard_more.h"
#include "ui/screens/yards/yard_page.h"

namespace ui {

namespace {

// A round outweighs colonies to come back to, those a round to come.
void set_state(Row& row, const engine::Due& due, engine::YardId yard, engine::Date today) {
  const auto of_yard = [&](const auto& x) { return x.yard == yard; };
  const auto round = std::find_if(due.rounds.begin(), due.rounds.end(), of_yard);
  const auto backs = std::count_if(due.come_backs.begin(), due.come_backs.end(), of_yard);
  const auto coming = std::find_if(due.coming.begin(), due.coming.end(), of_yard);
  if (round != due.rounds.end()) {
    const bool over = round->days_over > 0;
    row.tag = over ? "OVERDUE" : "DUE TODAY";
    row.mark = over ? Mark::Warning : Mark::Clock;
    row.tag_surface = over ? Surface::Warning : Surface::Active;
  } else if (backs > 0) {
    row.tag = fmt::format("COME BACK: {}", backs);
    row.mark = Mark::Return;
    row.tag_surface = Surface::Warning;
  } else if (coming != due.coming.end()) {
    row.tag = fmt::format("ROUND {}", from_today(coming->planned, today));
    row.mark = Mark::Clock;
  }
}

// The last walk among the colonies that stand there now.
std::string about_yard(const Look& look, const engine::Yard& yard) {
  const auto colonies = engine::colonies_of(look.farm, yard.id);
  std::string line = engine::counted(colonies.size(), "colony", "colonies");
  const engine::Walk* last = nullptr;
  for (const engine::Colony* c : colonies) {
    const engine::Walk* walk = c->last_walk ? &look.farm.walks.at(*c->last_walk) : nullptr;
    if (walk == nullptr || walk->yard != yard.id) continue;
    if (last == nullptr || walk->opened.at > last->opened.at) last = walk;
  }
  if (last == nullptr) return line;
  return line + ", last walk " + short_day(engine::local_date(last->opened), look.today());
}

Ask add_yard(Touch& t, const Look& look, YardsView& v) {
  std::string name;
  const bool done = typed_words(t, v.typing, {"Name of the new yard"}, name);
  if (v.typing.field < 0) v.page_of = YardsPage::None;
  if (!done) return {};
  v.yard = engine::YardId{look.fresh_id};
  return engine::Body{engine::YardAdded{*v.yard, name}};
}

Ask yard_list(Touch& t, Rect room, const Look& look, YardsView& v) {
  const std::vector<const engine::Yard*> yards = engine::yards(look.farm);
  const auto& all = look.farm.colonies;
  const auto colonies = static_cast<std::size_t>(std::count_if(
      all.begin(), all.end(), [](const auto& colony) { return !colony.second.lost; }));
  head(t, room, "Yards",
       engine::counted(yards.size(), "yard", "yards") + ", " +
           engine::counted(colonies, "colony", "colonies"));
  const Act list[] = {{.label = "Add yard", .mark = Mark::More}};
  if (acts(t, room, list)) {
    v.page_of = YardsPage::AddYard;
    start_words(v.typing, 0);
  }
  if (yards.empty()) {
    nothing_here(t, room,
                 "No yards yet.\nAdd one, or read a spreadsheet with\nduskwalk read FILE.csv");
    return {};
  }
  const engine::Due& due = look.answers.season.due(look.farm, look.today());
  const auto tapped = list_rows(t, room, v.page, yards.size(), [&](std::size_t i) {
    const engine::Yard& y = *yards[i];
    Row row{.title = y.name, .second = about_yard(look, y), .id = engine::text(y.id)};
    set_state(row, due, y.id, look.today());
    fit_row(t, row, room.w);
    return row;
  });
  if (tapped) {
    v.yard = yards[*tapped]->id;
    v.colony_page = 0;
  }
  return {};
}

Ask colony_pages(Touch& t, const Rect& room, const Look& look, YardsView& v,
                 const engine::Colony& colony) {
  const engine::Yard& yard = look.farm.yards.at(colony.yard);
  switch (v.page_of) {
    case YardsPage::ColonyForm:
      return colony_form(t, room, look, v, yard);
    case YardsPage::Count:
      return count_page(t, room, look, v, colony);
    case YardsPage::Treatment:
      return treatment_page(t, room, look, v, colony);
    case YardsPage::Move:
      return move_page(t, room, look, v, colony);
    case YardsPage::Note:
      return note_page(t, room, look, v, yard, &colony);
    case YardsPage::Settle:
      return settle_page(t, room, look, v, colony);
    case YardsPage::Lost:
      return lost_page(t, room, look, v, colony);
    case YardsPage::Kind:
      return kind_page(t, room, v, colony);
    default:
      return colony_page(t, room, look, v, colony);
  }
}

Ask yard_pages(Touch& t, const Rect& room, const Look& look, YardsView& v,
               const engine::Yard& yard) {
  switch (v.page_of) {
    case YardsPage::ColonyForm:
      return colony_form(t, room, look, v, yard);
    case YardsPage::YardMore:
      return yard_more(t, room, look, v, yard);
    case YardsPage::Driving:
      return driving_page(t, room, look, v, yard);
    case YardsPage::Gate:
      return gate_page(t, room, look, v, yard);
    case YardsPage::Card:
      return card_page(t, room, v, yard);
    case YardsPage::Rounds:
      return rounds_page(t, room, look, v, yard);
    case YardsPage::PlanRounds:
      return plan_rounds(t, room, look, v, yard);
    case YardsPage::Note:
      return note_page(t, room, look, v, yard, nullptr);
    default:
      return yard_page(t, room, look, v, yard);
  }
}

}  // namespace

Ask yards_screen(Touch& t, const Rect& room, const Look& look, YardsView& v) {
  if (v.page_of == YardsPage::AddYard) return add_yard(t, look, v);
  if (v.colony) {
    const auto at = look.farm.colonies.find(*v.colony);
    if (at != look.farm.colonies.end() && !at->second.lost)
      return colony_pages(t, room, look, v, at->second);
  }
  if (v.yard) {
    const auto at = look.farm.yards.find(*v.yard);
    if (at != look.farm.yards.end() && !at->second.lost)
      return yard_pages(t, room, look, v, at->second);
  }
  return yard_list(t, room, look, v);
}

}  // namespace ui
