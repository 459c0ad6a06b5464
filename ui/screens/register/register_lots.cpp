// Which colonies got a lot: Register, Lots, the lot.
#include "ui/screens/register/register_lots.h"

#include <fmt/format.h>

#include <algorithm>

#include "engine/register/day.h"
#include "engine/words/lookup.h"
#include "ui/screens/base/layout.h"
#include "ui/screens/register/register_find.h"

namespace ui {

namespace {

std::string lot_words(const Look& look, const engine::LotWanted& lot) {
  const auto at = lot.id ? look.farm.lots.find(*lot.id) : look.farm.lots.end();
  if (at == look.farm.lots.end()) return "entered with a treatment, not on the shelf";
  const engine::Lot& l = at->second;
  return l.product + ", " + show(look, l.left()) + " of " + show(look, l.received) + " left";
}

using Given = engine::Search::Given;

void put_in_order(FoundRows& found) {
  const auto& given = found.search.given();
  if (!found.search.whole() || found.given.size() == given.size()) return;
  found.given.clear();
  for (const auto& [colony, got] : given) found.given.push_back(colony);
  std::sort(found.given.begin(), found.given.end(), [&](engine::ColonyId a, engine::ColonyId b) {
    const Given &one = given.at(a), &other = given.at(b);
    if (one.yard != other.yard) return engine::before_by_name(one.yard, other.yard);
    return engine::before_by_name(one.name, other.name);
  });
}

Row row_of(const Look& look, const Given& g) {
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
  const engine::Search* found = search_on(t, look, v.find);
  const std::size_t count = found == nullptr ? 0 : found->given().size();
  if (found != nullptr) put_in_order(*v.find.found);
  const std::vector<engine::ColonyId> list =
      found == nullptr ? std::vector<engine::ColonyId>{} : v.find.found->given;
  bool back = false;
  head(t, room, "Lot " + engine::words(*v.find.query.lot, look.farm),
       "given to " + found_words(found, "colony", "colonies", count), &back);
  const Act show_rows[] = {{.label = "Every entry"}};
  const bool all = acts(t, room, show_rows).has_value();
  if (list.empty()) {
    if (found != nullptr && found->whole()) nothing_here(t, room, "No colony got this lot.");
  } else {
    const auto tapped = list_rows(t, room, v.find.list_page, list.size(), [&](std::size_t i) {
      return row_of(look, found->given().at(list[i]));
    });
    if (tapped) v.find.query.colony = list[*tapped];
    if (tapped) v.page_of = BookPage::Find;
  }
  if (all) v.page_of = BookPage::Find;
  if (back) {
    v.find = {};
    v.page_of = BookPage::Lots;
  }
}

}  // namespace ui
