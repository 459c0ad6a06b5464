// Kit: vaporizers, cloths, batteries, acid, the respirator, and what to pack.
#include "ui/screens/kit/kit_screen.h"

#include "ui/screens/answers/answers.h"
#include "ui/screens/base/layout.h"
#include "ui/screens/kit/kit_item.h"
#include "ui/screens/kit/kit_packing.h"
#include "ui/screens/kit/kit_rows.h"
#include "ui/screens/kit/kit_stock.h"
#include "ui/screens/words/kit_words.h"

namespace ui {

namespace {

using engine::KitSort;
constexpr int kNewItem = 1;

struct Sort {
  KitSort sort;
  const char* add;
  const char* title;
  const char* none;
};

Sort sort_of(KitSection s) {
  if (s == KitSection::Vaporizers)
    return {KitSort::Vaporizer, "Add vaporizer", "Name of the new vaporizer", "No vaporizer yet."};
  if (s == KitSection::Cloths)
    return {KitSort::Cloth, "Add cloth", "Name of the new cloth",
            "No cloth yet. Without one the entrance stays open."};
  if (s == KitSection::Batteries)
    return {KitSort::Battery, "Add battery", "Name of the new battery", "No battery yet."};
  return {KitSort::Respirator, "Add respirator", "Name of the new respirator",
          "No respirator yet. Acid vapor harms eyes and lungs: none, no walk."};
}

// "1" after nothing, "4" after "3": kit is mostly numbered.
std::string suggested(const Look& look, KitSort sort) {
  return std::to_string(engine::kit_of(look.farm, sort).size() + 1);
}

// What was added last is seen, on whatever page it stands.
void turn_to_added(const Touch& t, const Rect& room, KitView& v, const std::vector<Row>& rows) {
  for (std::size_t i = 0; i < rows.size(); ++i) {
    if (rows[i].id != v.added) continue;
    v.page = page_with(t, room, rows.size(), i);
    v.added.clear();
  }
}

Ask items(Touch& t, Rect room, const Look& look, KitView& v, const Sort& s) {
  const std::vector<const engine::KitItem*> all = engine::kit_of(look.farm, s.sort);
  const Rect foot = cut_bottom(room, t.mm(17), t.gap());
  if (button(t, foot, s.add, {.mark = Mark::More}))
    start_words(v.typing, kNewItem, suggested(look, s.sort));
  if (all.empty()) {
    nothing_here(t, room, s.none);
    return {};
  }
  std::vector<Row> rows;
  for (const engine::KitItem* item : all) rows.push_back(kit_row(look, *item));
  turn_to_added(t, room, v, rows);
  if (const auto tapped = list_rows(t, room, v.page, rows)) {
    v.item = all[*tapped]->id;
    v.page_of = KitPage::None;
  }
  return {};
}

Ask new_item(Touch& t, const Look& look, KitView& v, const Sort& s) {
  std::string name;
  if (!typed_words(t, v.typing, {s.title}, name)) return {};
  const engine::KitId item{look.fresh_id};
  v.added = engine::text(item);
  return engine::Body{engine::KitAdded{item, s.sort, name}};
}

void acid(Touch& t, Rect room, const Look& look, KitView& v) {
  const Rect foot = cut_bottom(room, t.mm(17), t.gap());
  if (button(t, foot, "Receive stock", {.mark = Mark::More})) {
    v.stock = {};
    v.stock_page = 0;
    v.page_of = KitPage::Stock;
  }
  std::vector<Row> rows;
  std::vector<engine::LotId> ids;
  for (const auto& [id, lot] : look.farm.lots) {
    rows.push_back(lot_row(look, lot));
    ids.push_back(id);
  }
  if (rows.empty()) nothing_here(t, room, "No acid on the shelf yet.");
  turn_to_added(t, room, v, rows);
  if (const auto tapped = list_rows(t, room, v.page, rows)) v.lot = ids[*tapped];
}

std::string summary(const Look& look) {
  const auto asks = kit_asks(look).size();
  return asks == 0 ? std::string("nothing to look after")
                   : engine::counted(asks, "thing", "things") + " to look after";
}

Ask kit_list(Touch& t, Rect room, const Look& look, KitView& v) {
  const auto section = static_cast<KitSection>(v.section);
  head(t, room, "Kit", summary(look));
  const std::string names[] = {"Vaporizers", "Cloths",     "Batteries",
                               "Acid",       "Respirator", "Pack list"};
  sections(t, room, names, v.section, v.page);
  if (section == KitSection::Acid) {
    acid(t, room, look, v);
  } else if (section == KitSection::Pack) {
    return pack_section(t, room, look, v);
  } else {
    return items(t, room, look, v, sort_of(section));
  }
  return {};
}

}  // namespace

Ask kit_screen(Touch& t, const Rect& room, const Look& look, KitView& v) {
  if (v.page_of == KitPage::Stock) return stock_page(t, room, look, v);
  if (v.page_of == KitPage::PackYard) {
    pack_yard_page(t, room, look, v);
    return {};
  }
  if (v.item) {
    const auto at = look.farm.kit.find(*v.item);
    if (at != look.farm.kit.end()) return kit_item_page(t, room, look, v, at->second);
  }
  if (v.lot) {
    const auto at = look.farm.lots.find(*v.lot);
    if (at != look.farm.lots.end()) return lot_page(t, room, look, v, at->second);
  }
  if (v.typing.field == kNewItem)
    return new_item(t, look, v, sort_of(static_cast<KitSection>(v.section)));
  return kit_list(t, room, look, v);
}

}  // namespace ui
