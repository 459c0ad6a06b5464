// How long it takes to drive from home and from the other yards, each pair by the keypad.
#include "ui/screens/yards/yard_driving.h"

#include <fmt/format.h>

#include "ui/screens/answers/answers.h"
#include "ui/screens/base/layout.h"
#include "ui/screens/words/colony_words.h"

namespace ui {

namespace {

constexpr int kFrom = 30;  // the field of home; of the other yards the ones after it

std::optional<int> minutes_between(const Look& look, engine::YardId a, engine::YardId b) {
  const auto at = look.farm.drive_minutes.find(std::minmax(a, b));
  return at == look.farm.drive_minutes.end() ? std::nullopt : std::optional(at->second);
}

// Home comes first, as no yard.
std::vector<const engine::Yard*> ends_of(const Look& look, const engine::Yard& yard) {
  std::vector<const engine::Yard*> ends = engine::yards(look.farm);
  std::erase_if(ends, [&](const engine::Yard* y) { return y->id == yard.id; });
  ends.insert(ends.begin(), nullptr);
  return ends;
}

std::string called(const engine::Yard* end) { return end ? end->name : "home"; }

Ask typed_minutes(Touch& t, YardsView& v, const engine::Yard& yard,
                  const std::vector<const engine::Yard*>& ends) {
  const engine::Yard* end = ends.at(static_cast<std::size_t>(v.typing.field - kFrom));
  const NumberAsk ask{fmt::format("Driving from {} to {}", called(end), yard.name), "min", 1, 600};
  double value = 0;
  if (!typed_number(t, v.typing, ask, value)) return {};
  engine::DriveTimeSet e{{}, yard.id, static_cast<int>(value)};
  if (end != nullptr) e.from = end->id;
  return engine::Body{e};
}

}  // namespace

Ask driving_page(Touch& t, Rect room, const Look& look, YardsView& v, const engine::Yard& yard) {
  const auto ends = ends_of(look, yard);
  if (v.typing.field >= kFrom && v.typing.field < kFrom + static_cast<int>(ends.size()))
    return typed_minutes(t, v, yard, ends);
  bool back = false;
  head(t, room, "Driving to " + yard.name, "minutes, there as back", &back);
  if (back) v.page_of = YardsPage::YardMore;
  const auto row_at = [&](std::size_t i) {
    const engine::Yard* end = ends[i];
    const auto minutes = minutes_between(look, end ? end->id : engine::YardId{}, yard.id);
    Row row = field("From " + called(end),
                    minutes ? fmt::format("{} min", *minutes) : std::string("not entered"),
                    minutes ? "" : "reckoned from the distance where both places are known");
    row.id = end ? engine::text(end->id) : "home";
    fit_row(t, row, room.w);
    return row;
  };
  if (const auto tapped = list_rows(t, room, v.panel_page, ends.size(), row_at))
    start_number(v.typing, kFrom + static_cast<int>(*tapped));
  return {};
}

}  // namespace ui
