#include "ui/screens/yards/yard_page.h"

#include <fmt/format.h>

#include <algorithm>

#include "engine/rounds/due.h"
#include "ui/screens/answers/answers.h"
#include "ui/screens/base/layout.h"
#include "ui/screens/words/colony_words.h"
#include "ui/screens/yards/colony_form.h"

namespace ui {

namespace {

using Colonies = std::vector<const engine::Colony*>;

// The yard's course that is not over, if there is one.
std::string round_words(const Look& look, const engine::Due& due, engine::YardId yard) {
  for (const auto* list : {&due.rounds, &due.coming}) {
    for (const engine::DueRound& r : *list) {
      if (r.yard != yard) continue;
      return fmt::format("round {} of {} {} {}", r.number, r.of, r.days_over > 0 ? "was due" : "is",
                         from_today(r.planned, look.today()));
    }
  }
  return "no round planned";
}

std::optional<engine::CourseId> due_course(const engine::Due& due, engine::YardId yard) {
  for (const engine::DueRound& r : due.rounds)
    if (r.yard == yard) return r.course;
  return std::nullopt;
}

std::string boxes_words(const engine::Colony& c) {
  return engine::counted(static_cast<std::size_t>(c.brood_boxes), "brood box", "brood boxes") +
         (c.supers_on ? ", supers on" : "");
}

void colony_list(Touch& t, const Rect& room, const Look& look, YardsView& v, const Colonies& all) {
  std::vector<Row> rows;
  for (const engine::Colony* c : all) {
    Row row{.title = c->name, .second = boxes_words(*c), .id = engine::text(c->id)};
    if (const auto day = last_treated(look, c->id))
      row.second += ", treated " + short_day(*day, look.today());
    if (!come_back_of(look, c->id).empty()) {
      row.tag = "COME BACK";
      row.mark = Mark::Return;
      row.tag_surface = Surface::Warning;
    }
    fit_row(t, row, room.w);
    rows.push_back(row);
  }
  if (const auto tapped = list_rows(t, room, v.colony_page, rows)) {
    v.colony = all[*tapped]->id;
    v.fact_page = 0;
  }
}

// Colonies stand where they stand, north up; those of no known place follow in rows below.
std::vector<Tile> tiles_of(const Look& look, const Colonies& all) {
  constexpr int kRow = 6, kStepCm = 150;
  int south = 0, west = 0;
  bool any = false;
  for (const engine::Colony* c : all) {
    if (!c->spot) continue;
    south = any ? std::min(south, c->spot->y_cm) : c->spot->y_cm;
    west = any ? std::min(west, c->spot->x_cm) : c->spot->x_cm;
    any = true;
  }
  std::vector<Tile> tiles;
  int loose = 0;
  for (const engine::Colony* c : all) {
    Tile tile{.label = c->name};
    const engine::Spot spot = c->spot.value_or(engine::Spot{
        west + loose % kRow * kStepCm, south - (any ? 2 : 0) * kStepCm - loose / kRow * kStepCm});
    if (!c->spot) ++loose;
    tile.x = static_cast<float>(spot.x_cm);
    tile.y = static_cast<float>(-spot.y_cm);
    if (!come_back_of(look, c->id).empty()) {
      tile.mark = Mark::Return;
      tile.surface = Surface::Warning;
    }
    tiles.push_back(tile);
  }
  return tiles;
}

// Whether a name can stand on the smallest tile, beside a mark.
bool fits_tile(const Touch& t, const std::string& name) {
  const float width = (t.least_w() - t.mm(4)) * 0.6F;
  for (std::size_t at = 0; at < name.size();) {
    const std::size_t end = std::min(name.find(' ', at), name.size());
    if (text_width(t, name.substr(at, end - at), Size::Small) > width) return false;
    at = end + 1;
  }
  return text_height(t, name, width, Size::Small) <= t.least_h() - t.mm(3.5F);
}

void colony_map(Touch& t, Rect room, const Look& look, YardsView& v, const Colonies& all) {
  std::vector<Tile> tiles = tiles_of(look, all);
  const bool named = std::all_of(tiles.begin(), tiles.end(),
                                 [&](const Tile& tile) { return fits_tile(t, tile.label); });
  if (!named)
    for (std::size_t i = 0; i < tiles.size(); ++i) tiles[i].label = std::to_string(i + 1);
  remark(t, cut_bottom(room, line_height(t, Size::Small), t.mm(2)),
         named ? "North is up. An arrow bent back: come back to it."
               : "North is up. Numbers are places in the list.");
  if (const auto tapped = map(t, room, v.panel_page, tiles)) {
    v.colony = all[*tapped]->id;
    v.fact_page = 0;
  }
}

GoTo to_walk(const Look& look, engine::YardId yard) {
  if (engine::walk_under_way(look.farm, look.device) != nullptr) return ToScreen{ScreenName::Walk};
  return ToOpening{yard, due_course(look.answers.season.due(look.farm, look.today()), yard)};
}

Ask act_on(Touch& t, Rect& room, const Look& look, YardsView& v, const engine::Yard& yard,
           const Colonies& all) {
  const bool under_way = engine::walk_under_way(look.farm, look.device) != nullptr;
  const Act list[] = {{.label = under_way ? "Back to the walk" : "Start walk",
                       .enabled = under_way || !all.empty(),
                       .surface = Surface::Action,
                       .big = true},
                      {.label = v.map ? "Show list" : "Show map", .enabled = !all.empty()},
                      {.label = "Add colony", .mark = Mark::More},
                      {.label = "Rounds"},
                      {.label = "More"}};
  const auto tapped = acts(t, room, list);
  if (!tapped) return {};
  v.panel_page = 0;
  if (*tapped == 0) return to_walk(look, yard.id);
  if (*tapped == 1) v.map = !v.map;
  if (*tapped == 2) draft_new_colony(look, v, yard);
  if (*tapped == 3) v.page_of = YardsPage::Rounds;
  if (*tapped == 4) v.page_of = YardsPage::YardMore;
  return {};
}

}  // namespace

Ask yard_page(Touch& t, Rect room, const Look& look, YardsView& v, const engine::Yard& yard) {
  const Colonies all = engine::colonies_of(look.farm, yard.id);
  bool back = false;
  head(t, room, yard.name,
       engine::counted(all.size(), "colony", "colonies") + ", " +
           round_words(look, look.answers.season.due(look.farm, look.today()), yard.id),
       &back);
  Ask asked = act_on(t, room, look, v, yard, all);
  if (all.empty()) {
    nothing_here(t, room, "No colonies here yet.");
  } else if (v.map) {
    colony_map(t, room, look, v, all);
  } else {
    colony_list(t, room, look, v, all);
  }
  if (back) v.yard.reset();
  return asked;
}

}  // namespace ui
