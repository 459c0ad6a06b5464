#include "ui/screens/yards/yard_more.h"

#include "ui/screens/answers/answers.h"
#include "ui/screens/base/layout.h"
#include "ui/screens/words/colony_words.h"

namespace ui {

namespace {

constexpr int kYardName = 1;

Ask rename(Touch& t, YardsView& v, const engine::Yard& yard) {
  std::string name;
  if (!typed_words(t, v.typing, {"Name of the yard"}, name)) return {};
  engine::YardChanged e{yard.id};
  e.name = name;
  return engine::Body{e};
}

// The yard's own notes, newest first.
std::vector<Row> notes(const Look& look, const engine::Yard& yard) {
  std::vector<Row> rows;
  for (const engine::LogIndex::Place place : look.book.notes_of(yard.id)) {
    const engine::Entry e = look.farm.log.copy(place);
    if (const auto note = engine::holds<engine::NoteWritten>(look.farm, e);
        note && note->yard == yard.id)
      rows.push_back({.title = note->text, .second = day_words(engine::local_date(e.event.stamp))});
  }
  if (!yard.note.empty()) rows.push_back({.title = yard.note, .second = "from the spreadsheet"});
  return rows;
}

}  // namespace

Ask yard_more(Touch& t, Rect room, const Look& look, YardsView& v, const engine::Yard& yard) {
  if (v.typing.field == kYardName) return rename(t, v, yard);
  bool back = false;
  head(t, room, yard.name, "notes, name, driving, way in, card, tags, giving the yard up", &back);
  const Act list[] = {
      {.label = "Write a note", .mark = Mark::More},
      {.label = "Rename yard"},
      {.label = "Driving"},
      {.label = "Way in"},
      {.label = "Card"},
      {.label = "Hive tags",
       .second = paper_place(look),
       .enabled = !paper_folder(look).empty() && !engine::colonies_of(look.farm, yard.id).empty()},
      {.label = "Give up yard", .surface = Surface::Warning, .hold = true}};
  const auto tapped = acts(t, room, list);
  std::vector<Row> rows = notes(look, yard);
  if (!look.paper_line.empty()) rows.insert(rows.begin(), {.title = look.paper_line});
  if (rows.empty())
    nothing_here(t, room, look.book.whole() ? "No notes about this yard." : "Looking for notes.");
  list_rows(t, room, v.panel_page, rows, RowKind::Shown);
  if (back) v.page_of = YardsPage::None;
  if (!tapped) return {};
  if (*tapped == 0) {
    v.page_of = YardsPage::Note;
    v.said.clear();
    v.written.clear();
  }
  if (*tapped == 1) start_words(v.typing, kYardName, yard.name);
  if (*tapped == 2) {
    v.page_of = YardsPage::Driving;
    v.panel_page = 0;
  }
  if (*tapped == 3) {
    v.page_of = YardsPage::Gate;
    v.panel_page = 0;
    v.gate.reset();
  }
  if (*tapped == 4) {
    v.page_of = YardsPage::Card;
    v.panel_page = 0;
  }
  if (*tapped == 5)
    return WritePaper{WritePaper::What::Tags, paper_folder(look), {.yard = yard.id}};
  if (*tapped != 6) return {};
  v.page_of = YardsPage::None;
  v.yard.reset();
  return engine::Body{engine::YardLost{yard.id, "given up"}};
}

}  // namespace ui
