// Register: the entries of a day in words, newest first.
#include "ui/screens/register/register_screen.h"

#include <fmt/format.h>

#include <algorithm>

#include "engine/farm/setups.h"
#include "engine/register/day.h"
#include "ui/screens/answers/answers.h"
#include "ui/screens/base/layout.h"
#include "ui/screens/register/register_correct.h"
#include "ui/screens/register/register_entry.h"
#include "ui/screens/register/register_find.h"
#include "ui/screens/register/register_late.h"
#include "ui/screens/register/register_lots.h"
#include "ui/screens/register/register_write.h"
#include "ui/screens/tablets/tablets_page.h"

namespace ui {

namespace {

// Today or the last day before it; an entry from a clock in the future hides neither.
engine::Date shown_day(const RegisterView& v, const engine::LogIndex& book, engine::Date today) {
  if (v.day) return *v.day;
  if (const auto past = book.day_before(plus_days(today, 1))) return *past;
  return book.day_after(today).value_or(today);
}

Row row_of(const Look& look, const engine::Entry& e) {
  Row row{.title =
              engine::clock_time(e.event.stamp) + " " + engine::describe(e.event.body, look.farm)};
  row.id = engine::short_ref(e.event.ref);
  row.second = "entry " + row.id;
  if (e.struck) {
    const bool corrected = engine::correction_of(look.farm, e) != nullptr;
    row.second = (corrected ? "corrected: " : "struck: ") + e.struck->reason;
    row.tag = corrected ? "CORRECTED" : "STRUCK";
  } else if (e.fallen != engine::Refusal::None) {
    row.second = std::string("does not count: ") + engine::sentence(e.fallen);
    row.tag = "FALLEN";
  }
  if (!row.tag.empty()) {
    row.mark = Mark::Cross;
    row.tag_surface = Surface::Muted;
  }
  return row;
}

void entries(Touch& t, const Rect& room, const Look& look, RegisterView& v,
             const engine::LogIndex::Places& list) {
  if (list.empty()) {
    nothing_here(t, room, "Nothing was written on this day.");
    return;
  }
  const auto tapped = list_rows(t, room, v.page, list.size(), [&](std::size_t i) {
    Row row = row_of(look, *look.farm.log[list[i]]);
    fit_row(t, row, room.w);
    return row;
  });
  if (tapped) open_entry(v, look.farm.log[list[*tapped]]->event.ref);
}

void turn_to(RegisterView& v, const std::optional<engine::Date>& day) {
  v.day = day;
  v.page = 0;
}

void open_page(RegisterView& v, std::size_t which) {
  constexpr BookPage kPages[] = {BookPage::Find, BookPage::Lots, BookPage::Late, BookPage::Tablets};
  v.page_of = kPages[which];
  v.find = {};
  v.late = {};
  v.tablets.report = false;
  v.tablets.open.reset();
}

Ask day_page(Touch& t, Rect room, const Look& look, RegisterView& v) {
  const engine::Date day = shown_day(v, look.book, look.today());
  const auto before = look.book.day_before(day), after = look.book.day_after(day);
  const auto all = look.book.of_day(day);
  head(t, room, "Register",
       day_words(day) + ", " + from_today(day, look.today()) + ", " +
           engine::counted(all.size(), "entry", "entries"));
  const Act list[] = {{.label = "Write the log", .surface = Surface::Action, .big = true},
                      {.label = "Day before", .enabled = before.has_value(), .mark = Mark::Left},
                      {.label = "Day after", .enabled = after.has_value(), .mark = Mark::Right},
                      {.label = "Find"},
                      {.label = "Lots"},
                      {.label = "Enter late"},
                      {.label = "Other tablets"}};
  const auto tapped = acts(t, room, list);
  entries(t, room, look, v, all);
  if (tapped == 0U) v.writing = true;
  if (tapped == 1U) turn_to(v, before);
  if (tapped == 2U) turn_to(v, after);
  if (tapped && *tapped > 2) open_page(v, *tapped - 3);
  return {};
}

Ask page_of(Touch& t, const Rect& room, const Look& look, RegisterView& v) {
  switch (v.page_of) {
    case BookPage::Find:
      return find_page(t, room, look, v);
    case BookPage::Lots:
      lots_page(t, room, look, v);
      return {};
    case BookPage::LotColonies:
      lot_colonies(t, room, look, v);
      return {};
    case BookPage::Late:
      return late_page(t, room, look, v);
    case BookPage::Tablets:
      return tablets_page(t, room, look, v);
    case BookPage::Day:
      break;
  }
  return day_page(t, room, look, v);
}

}  // namespace

Ask register_screen(Touch& t, const Rect& room, const Look& look, RegisterView& v) {
  if (v.correct && !v.writing) return correct_page(t, room, look, v);
  if (v.entry && !v.writing) {
    const engine::EntryHandle entry = engine::find_entry(look.farm, *v.entry);
    if (entry != nullptr) return entry_page(t, room, look, v, *entry);
  }
  if (v.writing) return write_page(t, room, look, v, shown_day(v, look.book, look.today()));
  return page_of(t, room, look, v);
}

}  // namespace ui
