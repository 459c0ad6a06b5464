// Which colonies got a lot: Register, Lots, the lot.
#include <fmt/format.h>

#include <algorithm>
#include <map>

#include "engine/register/lookup.h"
#include "ui/screens/register_parts.h"

namespace ui {

namespace {

std::string lot_words(const Look& look, const engine::LotWanted& lot) {
  const auto at = lot.id ? look.farm.lots.find(*lot.id) : look.farm.lots.end();
  if (at == look.farm.lots.end()) return "entered with a treatment, not on the shelf";
  const engine::Lot& l = at->second;
  return l.product + ", " + show(look, l.left()) + " of " + show(look, l.received) + " left";
}

struct Got {
  engine::ColonyId colony;
  std::string name, yard;
  std::size_t times = 0;
  engine::Mass sum;
  engine::Date last{};
};

// What counts alone; in the order in which each first got it.
std::vector<Got> who_got(const std::vector<engine::RegisterRow>& rows) {
  std::vector<Got> list;
  std::map<engine::ColonyId, std::size_t> place;
  for (const engine::RegisterRow& r : rows) {
    if (!r.counts()) continue;
    const auto [at, fresh] = place.try_emplace(r.colony, list.size());
    if (fresh) list.push_back({r.colony, r.colony_name, r.yard_name});
    Got& got = list[at->second];
    ++got.times;
    got.sum = got.sum + r.dose.value_or(engine::Mass{});
    got.last = r.date;
  }
  return list;
}

Row row_of(const Look& look, const Got& g) {
  Row row{.title = g.name + ", " + g.yard, .id = engine::text(g.colony)};
  row.second = engine::counted(g.times, "time", "times") +
               (g.sum.mg > 0 ? ", " + show(look, g.sum) : "") + ", last on " + day_words(g.last);
  return row;
}

}  // namespace

void lots_page(Touch& t, Rect room, const Look& look, RegisterView& v) {
  bool back = false;
  head(t, room, "Lots", "tap one to see which colonies got it", &back);
  if (back) v.page_of = BookPage::Day;
  const std::vector<engine::LotWanted> lots = lots_of(look, v.find);  // the view is reset below
  if (lots.empty()) return nothing_here(t, room, "No lot was entered yet.");
  const auto tapped = list_rows(t, room, v.find.list_page, lots.size(), [&](std::size_t i) {
    return Row{.title = engine::words(lots[i], look.farm), .second = lot_words(look, lots[i])};
  });
  if (!tapped) return;
  v.find = {};
  v.find.query.lot = lots[*tapped];
  v.page_of = BookPage::LotColonies;
}

void lot_colonies(Touch& t, Rect room, const Look& look, RegisterView& v) {
  const auto list = who_got(found_rows(look, v.find));
  bool back = false;
  head(t, room, "Lot " + engine::words(*v.find.query.lot, look.farm),
       "given to " + engine::counted(list.size(), "colony", "colonies"), &back);
  const Act show_rows[] = {{.label = "Every entry"}};
  const bool all = acts(t, room, show_rows).has_value();
  if (list.empty()) {
    nothing_here(t, room, "No colony got this lot.");
  } else {
    const auto tapped = list_rows(t, room, v.find.list_page, list.size(),
                                  [&](std::size_t i) { return row_of(look, list[i]); });
    if (tapped) v.find.query.colony = list[*tapped].colony;
    if (tapped) v.page_of = BookPage::Find;
  }
  if (all) v.page_of = BookPage::Find;
  if (back) {
    v.find = {};
    v.page_of = BookPage::Lots;
  }
}

}  // namespace ui
