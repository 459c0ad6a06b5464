#include "ui/screens/yards/yard_card.h"

#include <array>

#include "ui/screens/base/layout.h"

namespace ui {

namespace {

constexpr int kFirst = 200;  // the field of the first line of the card

struct CardLine {
  const char* name;
  const char* hint;
  std::string engine::Yard::*now;
  std::optional<std::string> engine::YardChanged::*then;
};
constexpr std::array<CardLine, 4> kLines{{
    {"Address", "stands in large letters on the page of first aid", &engine::Yard::address,
     &engine::YardChanged::address},
    {"Way in", "track, lock, where the car may stand", &engine::Yard::access,
     &engine::YardChanged::access},
    {"Landowner", "name and number", &engine::Yard::landowner, &engine::YardChanged::landowner},
    {"Private", "codes of gates: in no report, no table and no sheet", &engine::Yard::private_note,
     &engine::YardChanged::private_note},
}};

Ask typed_line(Touch& t, YardsView& v, const engine::Yard& yard) {
  const CardLine& line = kLines.at(static_cast<std::size_t>(v.typing.field - kFirst));
  std::string words;
  if (!typed_words(t, v.typing, {line.name}, words)) return {};
  engine::YardChanged e{yard.id};
  e.*line.then = words;
  return engine::Body{e};
}

}  // namespace

Ask card_page(Touch& t, Rect room, YardsView& v, const engine::Yard& yard) {
  if (v.typing.field >= kFirst && v.typing.field < kFirst + static_cast<int>(kLines.size()))
    return typed_line(t, v, yard);
  bool back = false;
  head(t, room, yard.name, "what who comes there must know", &back);
  if (back) v.page_of = YardsPage::YardMore;
  const auto row_at = [&](std::size_t i) {
    const CardLine& line = kLines[i];
    const std::string& said = yard.*line.now;
    Row row = field(line.name, said.empty() ? "not entered" : said, line.hint);
    row.id = line.name;
    fit_row(t, row, room.w);
    return row;
  };
  if (const auto tapped = list_rows(t, room, v.panel_page, kLines.size(), row_at))
    start_words(v.typing, kFirst + static_cast<int>(*tapped), yard.*kLines[*tapped].now);
  return {};
}

}  // namespace ui
