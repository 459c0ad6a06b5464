#include <fmt/format.h>

#include <algorithm>

#include "ui/screens/kit_parts.h"

namespace ui {

namespace {

Row need_row(const char* what, const std::string& need, const std::string& there, bool enough) {
  Row row{.title = what};
  row.second = fmt::format("needed {}, there {}", need, there);
  row.tag = enough ? "ENOUGH" : "SHORT";
  row.mark = enough ? Mark::Check : Mark::Warning;
  row.tag_surface = enough ? Surface::Good : Surface::Warning;
  return row;
}

Row charge_row(const Look& look, const engine::KitNeed& n) {
  const std::string batteries =
      engine::counted(static_cast<std::size_t>(n.charged), "battery", "batteries");
  return need_row("Battery charge", show(look, n.acid),
                  "about " + show(look, n.charge_left) + " in " + batteries,
                  n.charged > 0 && n.charge_left >= n.acid);
}

Row need_row(const char* what, int need, int there) {
  return need_row(what, std::to_string(need), std::to_string(there), there >= need);
}

std::vector<Row> need_rows(const Look& look, const engine::KitNeed& n) {
  return {need_row("Acid, a tenth to spare", show(look, n.acid), show(look, n.acid_on_hand),
                   n.acid_on_hand >= n.acid),
          charge_row(look, n), need_row("Vaporizers", 1, n.vaporizers),
          need_row("Cloths", 1, n.cloths), need_row("Respirators", 1, n.respirators)};
}

void choose_yard(Touch& t, const Rect& room, const Look& look, KitView& v) {
  std::vector<Row> rows;
  const std::vector<const engine::Yard*> yards = engine::yards(look.farm);
  for (const engine::Yard* y : yards) {
    Row row{.title = y->name, .id = engine::text(y->id)};
    const auto colonies = engine::colonies_of(look.farm, y->id);
    row.second = engine::counted(colonies.size(), "colony", "colonies");
    const bool enough = lacking(look, colonies).empty();
    row.tag = enough ? "ENOUGH" : "SHORT";
    row.mark = enough ? Mark::Check : Mark::Warning;
    row.tag_surface = enough ? Surface::Good : Surface::Warning;
    rows.push_back(row);
  }
  if (const auto tapped = list_rows(t, room, v.page, rows)) v.yard = yards[*tapped]->id;
}

}  // namespace

void enough_section(Touch& t, Rect room, const Look& look, KitView& v) {
  if (!look.farm.setup.rules) {
    nothing_here(t, room, "Choose your label in Setup first: it decides the dose.");
    return;
  }
  const bool known = v.yard && look.farm.yards.count(*v.yard) > 0;
  if (!known) {
    choose_yard(t, room, look, v);
    return;
  }
  const auto colonies = engine::colonies_of(look.farm, *v.yard);
  const engine::KitNeed need =
      engine::need_for(look.farm, colonies, *look.farm.setup.rules, look.today());
  Rect top = cut_top(room, t.least_h(), t.gap());
  const Rect other = cut_right(top, t.mm(40), t.gap());
  text(t, top,
       look.farm.yards.at(*v.yard).name + ": " +
           engine::counted(colonies.size(), "colony", "colonies"));
  const Rect foot = cut_bottom(room, 2 * line_height(t, Size::Small) + 2, t.gap());
  remark(t, foot,
         "A tenth to spare and 50 g on one charge are common practice, no published figure. "
         "The doses are those of your label profile.");
  int page = 0;
  list_rows(t, room, page, need_rows(look, need), RowKind::Shown);
  if (button(t, other, "Other yard")) v.yard.reset();
}

}  // namespace ui
