// Making one of what was entered twice: what would be put together, and how much is known of each.
#include "ui/screens/tablets/tablets_join.h"

#include <fmt/format.h>

#include "engine/farm/queries.h"
#include "engine/farm/setups.h"
#include "engine/words/lookup.h"
#include "ui/screens/answers/answers.h"
#include "ui/screens/base/layout.h"

namespace ui {

namespace {

constexpr std::size_t kMostLines = 6;

std::string known_of(const engine::Farm& farm, engine::ColonyId id) {
  std::size_t counts = 0;
  farm.counts.each_of(id, [&](const engine::Count&) { ++counts; });
  return fmt::format("{}, {}", engine::counted(counts, "count", "counts"),
                     engine::counted(farm.vaporized.of(id).size(), "setting", "settings"));
}

std::string line_of(const engine::Farm& farm, const engine::ColoniesJoined& join) {
  return fmt::format("One: {} ({}) and {} ({})", engine::colony_called(farm, join.into),
                     known_of(farm, join.into), engine::colony_called(farm, join.colony),
                     known_of(farm, join.colony));
}

std::string line_of(const engine::Farm& farm, const engine::YardsJoined& join) {
  const auto hives = [&](engine::YardId yard) {
    return engine::counted(engine::colonies_of(farm, yard).size(), "colony", "colonies");
  };
  return fmt::format("One: yard {} ({}) and yard {} ({})", engine::yard_called(farm, join.into),
                     hives(join.into), engine::yard_called(farm, join.yard), hives(join.yard));
}

std::vector<std::string> join_lines(const Look& look, const std::vector<engine::Body>& joins) {
  std::vector<std::string> lines;
  for (const engine::Body& join : joins) {
    if (lines.size() == kMostLines) break;
    if (const auto* yards = std::get_if<engine::YardsJoined>(&join))
      lines.push_back(line_of(look.farm, *yards));
    if (const auto* colonies = std::get_if<engine::ColoniesJoined>(&join))
      lines.push_back(line_of(look.farm, *colonies));
  }
  if (joins.size() > lines.size())
    lines.push_back(fmt::format("And {} more of one name.", joins.size() - lines.size()));
  return lines;
}

}  // namespace

Ask join_page(Touch& t, Rect room, const Look& look, TabletsView& v,
              const engine::Contradicted& c) {
  std::vector<engine::Body> joins = engine::joins_of(look.farm, c);
  bool back = false;
  head(t, room, "Make them one?", "all that was entered of both, before and after", &back);
  const Act list[] = {{.label = "Join them",
                       .second = "a strike takes it back",
                       .surface = Surface::Action,
                       .hold = true,
                       .big = true}};
  const bool join = acts(t, room, list).has_value();
  paragraphs(t, room, v.side_page, join_lines(look, joins));
  if (back || join) v.join = false;
  if (join) v.open.reset();
  return join ? Ask{Entries{std::move(joins)}} : Ask{};
}

}  // namespace ui
