// Find: the register's rows of one yard, colony, period or lot, newest first.
#include "ui/screens/register/register_find.h"

#include <fmt/format.h>

#include <algorithm>

#include "engine/farm/queries.h"
#include "engine/register/day.h"
#include "ui/screens/base/form.h"
#include "ui/screens/base/layout.h"

namespace ui {

namespace {

using Choosing = FindView::Choosing;

std::string dose_words(const Look& look, const engine::RegisterRow& r) {
  if (r.dose) return engine::words(*r.dose, r.basis, engine::units_of(look.farm.setup));
  return r.dose_text;
}

std::string what_words(const Look& look, const engine::RegisterRow& r) {
  if (r.outcome == engine::Outcome::PassedOver && r.passed)
    return std::string("passed over, ") + engine::words(*r.passed);
  if (r.outcome == engine::Outcome::NotReached) return engine::words(r.outcome);
  std::string out = r.method == engine::Method::Vapor ? dose_words(look, r) : r.product;
  if (r.method != engine::Method::Vapor && !r.dose_text.empty()) out += ", " + r.dose_text;
  return out.empty() ? engine::words(r.outcome) : out;
}

void mark_row(const engine::RegisterRow& r, Row& row) {
  if (r.struck) {
    row.tag = r.corrected_by ? "CORRECTED" : "STRUCK";
    row.mark = Mark::Cross;
    row.tag_surface = Surface::Muted;
  } else if (!r.counts()) {
    row.tag = "FALLEN", row.mark = Mark::Cross, row.tag_surface = Surface::Muted;
  } else if (r.is_against_label()) {
    row.tag = "OVER THE LABEL", row.mark = Mark::Warning, row.tag_surface = Surface::Warning;
  } else if (!r.come_back.empty()) {
    row.tag = "COME BACK", row.mark = Mark::Return, row.tag_surface = Surface::Warning;
  } else if (r.entered) {
    row.tag = "LATE", row.mark = Mark::Clock;
  }
}

// A yard of a long name is left out rather than cut.
Row row_of(const Touch& t, const Look& look, const engine::RegisterRow& r, float list_width) {
  Row row{.title = r.colony_name + ": " + what_words(look, r), .id = engine::short_ref(r.entry)};
  mark_row(r, row);
  const float tag = row.tag.empty() ? 0 : text_width(t, row.tag, Size::Small) + t.mm(13);
  const float width = list_width - t.mm(7) - tag;
  const std::string when = day_words(r.date) + (r.at ? " " + engine::clock_time(*r.at) : "");
  const std::string lot = r.lot_code.empty() ? "" : ", lot " + r.lot_code;
  row.second = when + ", " + r.yard_name + lot;
  if (text_width(t, row.second, Size::Small) > width) row.second = when + lot;
  if (text_width(t, row.second, Size::Small) > width) row.second = when;
  return row;
}

std::string period_words(const engine::RegisterQuery& q) {
  if (q.from && q.to && *q.from == *q.to) return day_words(*q.from);
  if (q.from && q.to) return engine::iso_date(*q.from) + " to " + engine::iso_date(*q.to);
  if (q.from) return "from " + day_words(*q.from);
  return q.to ? "up to " + day_words(*q.to) : "all days";
}

// For a button: a year by its number, else only that there are bounds.
std::string period_in_short(const engine::RegisterQuery& q) {
  if (!q.from && !q.to) return "all days";
  if (!q.to) return "from " + engine::iso_date(*q.from);
  if (!q.from) return "to " + engine::iso_date(*q.to);
  const bool year = q.from->year() == q.to->year() && days_from(*q.from, *q.to) >= 364;
  return year ? std::to_string(static_cast<int>(q.from->year())) : "some days";
}

std::string yard_words(const Look& look, const engine::RegisterQuery& q) {
  const auto at = q.yard ? look.farm.yards.find(*q.yard) : look.farm.yards.end();
  return at == look.farm.yards.end() ? "all yards" : at->second.name;
}

std::vector<Act> filters(const Look& look, const engine::RegisterQuery& q) {
  const bool any = !(q == engine::RegisterQuery{});
  return {
      {.label = "Yard", .second = yard_words(look, q)},
      {.label = "Colony",
       .second = q.colony ? std::string(engine::colony_name(look.farm, *q.colony)) : "all"},
      {.label = "Period", .second = period_in_short(q)},
      {.label = "Lot", .second = q.lot ? engine::words(*q.lot, look.farm) : "all lots"},
      {.label = "Show everything", .enabled = any},
      {.label = "As a PDF", .second = paper_place(look), .enabled = !paper_folder(look).empty()}};
}

// Those of a map that `wanted` accepts, by name.
template <class Map, class Wanted>
auto by_name(const Map& map, Wanted wanted) {
  std::vector<const typename Map::mapped_type*> all;
  for (const auto& [id, item] : map)
    if (wanted(item)) all.push_back(&item);
  std::sort(all.begin(), all.end(),
            [](const auto* a, const auto* b) { return engine::before_by_name(a->name, b->name); });
  return all;
}

// Lists of "all", then each; the answer is what was tapped.
std::optional<std::size_t> choose(Touch& t, Rect room, FindView& v, std::string_view title,
                                  const std::vector<Row>& rows) {
  bool back = false;
  head(t, room, title, "", &back);
  const auto tapped = list_rows(t, room, v.list_page, rows);
  if (back || tapped) v.choosing = Choosing::None;
  return tapped;
}

// Lost ones too: their records stay.
void choose_yard(Touch& t, const Rect& room, const Look& look, FindView& v, bool then_colony) {
  const auto all = by_name(look.farm.yards, [](const engine::Yard&) { return true; });
  std::vector<Row> rows = {{.title = "All yards"}};
  for (const engine::Yard* y : all)
    rows.push_back({.title = y->name,
                    .second = y->lost ? "given up" : "",
                    .chosen = v.query.yard == y->id,
                    .id = engine::text(y->id)});
  const auto tapped = choose(t, room, v, then_colony ? "In which yard is it?" : "Yard", rows);
  if (!tapped) return;
  v.query.colony.reset();
  v.query.yard = *tapped == 0 ? std::nullopt : std::optional(all[*tapped - 1]->id);
  v.list_page = 0;
  if (then_colony && *tapped > 0) v.choosing = Choosing::Colony;
}

void choose_colony(Touch& t, const Rect& room, const Look& look, FindView& v) {
  if (!v.query.yard) return choose_yard(t, room, look, v, true);
  const auto all =
      by_name(look.farm.colonies, [&](const engine::Colony& c) { return c.yard == *v.query.yard; });
  std::vector<Row> rows = {{.title = "All colonies"}};
  for (const engine::Colony* c : all)
    rows.push_back({.title = c->name,
                    .second = c->lost ? "lost" : "",
                    .chosen = v.query.colony == c->id,
                    .id = engine::text(c->id)});
  const auto tapped = choose(t, room, v, "Colony", rows);
  if (!tapped) return;
  v.query.colony = *tapped == 0 ? std::nullopt : std::optional(all[*tapped - 1]->id);
  // It may have been treated elsewhere before it was moved.
  if (v.query.colony) v.query.yard.reset();
}

void choose_lot(Touch& t, const Rect& room, const Look& look, FindView& v) {
  const auto& lots = lots_of(look, v);
  std::vector<Row> rows = {{.title = "All lots"}};
  for (const engine::LotWanted& lot : lots)
    rows.push_back({.title = engine::words(lot, look.farm), .chosen = v.query.lot == lot});
  const auto tapped = choose(t, room, v, "Lot", rows);
  if (tapped) v.query.lot = *tapped == 0 ? std::nullopt : std::optional(lots[*tapped - 1]);
}

engine::Date first_of_year(engine::Date today, int years_ago) {
  return engine::Date{today.year() - std::chrono::years{years_ago}, std::chrono::January,
                      std::chrono::day{1}};
}

void set_period(FindView& v, std::optional<engine::Date> from, std::optional<engine::Date> to) {
  v.query.from = from;
  v.query.to = to;
  v.choosing = Choosing::None;
}

void choose_period(Touch& t, Rect room, const Look& look, FindView& v) {
  engine::RegisterQuery& q = v.query;
  const std::vector<FormField> fields = {
      {"From", q.from ? day_words(*q.from) : "the beginning", "this day is in it",
       DayField{[&q](engine::Date d) { q.from = d; }}},
      {"To", q.to ? day_words(*q.to) : "today", "this day is in it",
       DayField{[&q](engine::Date d) { q.to = d; }}}};
  if (form_panel(t, look, v.period, fields)) return;
  bool back = false;
  head(t, room, "Period", period_words(q), &back);
  const engine::Date today = look.today();
  const Act list[] = {{.label = "This year"},
                      {.label = "Last year"},
                      {.label = "Last 30 days"},
                      {.label = "All days"}};
  const auto tapped = acts(t, room, list);
  form_fields(t, room, v.period, fields);
  if (back) v.choosing = Choosing::None;
  if (tapped == 0U) set_period(v, first_of_year(today, 0), std::nullopt);
  if (tapped == 1U) set_period(v, first_of_year(today, 1), plus_days(first_of_year(today, 0), -1));
  if (tapped == 2U) set_period(v, plus_days(today, -29), std::nullopt);
  if (tapped == 3U) set_period(v, std::nullopt, std::nullopt);
}

bool choosing(Touch& t, const Rect& room, const Look& look, FindView& v) {
  switch (v.choosing) {
    case Choosing::None:
      return false;
    case Choosing::Yard:
      choose_yard(t, room, look, v, false);
      return true;
    case Choosing::Colony:
      choose_colony(t, room, look, v);
      return true;
    case Choosing::Period:
      choose_period(t, room, look, v);
      return true;
    case Choosing::Lot:
      choose_lot(t, room, look, v);
      return true;
  }
  return false;
}

std::string complete_words(const Look& look) {
  const auto from = engine::complete_from(look.farm);
  return from ? "complete from " + day_words(*from) + "; nothing is ever deleted"
              : std::string("no entries yet");
}

}  // namespace

const std::vector<engine::LotWanted>& lots_of(const Look& look, FindView& v) {
  if (v.lots_at != look.book.entries()) v.lots = engine::lots_known(look.farm, look.book);
  v.lots_at = look.book.entries();
  return v.lots;
}

const engine::Search* search_on(Touch& t, const Look& look, FindView& v) {
  constexpr std::size_t kOfAFrame = 200;  // entries: about a millisecond
  if (!look.book.whole()) return t.wake_in(0), nullptr;
  const std::size_t entries = look.book.entries();
  if (!v.found || v.found->entries != entries || !(v.found->search.query() == v.query))
    v.found = {entries, engine::Search(look.farm, look.book, v.query)};
  engine::Search& search = v.found->search;
  search.go_on(look.farm, look.book, kOfAFrame);
  if (!search.whole()) t.wake_in(0);
  return &search;
}

// "3 rows found"; "3 rows so far" while there is more to look through.
std::string found_words(const engine::Search* search, const char* one, const char* many,
                        std::size_t count) {
  if (search == nullptr) return "looking through the register";
  return engine::counted(count, one, many) + (search->whole() ? "" : " so far");
}

Ask find_page(Touch& t, Rect room, const Look& look, RegisterView& book) {
  FindView& v = book.find;
  if (choosing(t, room, look, v)) return {};
  const engine::Search* found = search_on(t, look, v);
  const std::size_t count = found == nullptr ? 0 : found->size();
  bool back = false;
  head(t, room, found_words(found, "row found", "rows found", count),
       look.paper_line.empty() ? complete_words(look) : look.paper_line, &back);
  const auto act = acts(t, room, filters(look, v.query));
  if (count == 0) {
    if (found != nullptr && found->whole())
      nothing_here(t, room, "Nothing of that is in the register.");
  } else {
    const auto tapped = list_rows(t, room, v.page, count, [&](std::size_t i) {
      Row row = row_of(t, look, found->row(look.farm, look.book, i), room.w);
      fit_row(t, row, room.w);
      return row;
    });
    if (tapped) open_entry(book, found->row(look.farm, look.book, *tapped).entry);
  }
  if (back) book.page_of = BookPage::Day;
  if (!act) return {};
  if (*act == 5) return WritePaper{WritePaper::What::Register, paper_folder(look), v.query};
  v.page = v.list_page = 0;
  constexpr Choosing kOf[] = {Choosing::Yard, Choosing::Colony, Choosing::Period, Choosing::Lot};
  if (*act < 4)
    v.choosing = kOf[*act];
  else
    v.query = {};
  return {};
}

}  // namespace ui
