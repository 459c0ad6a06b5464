#include "ui/screens/yards/colony_kind.h"

#include <algorithm>
#include <array>

#include "engine/words/words.h"
#include "ui/screens/base/layout.h"
#include "ui/screens/base/roles.h"

namespace ui {

namespace {

// A line of words, then what it asks for.
std::optional<int> asked(Touch& t, Rect& room, const char* words,
                         std::span<const std::string> options, int chosen) {
  say(t, cut_top(room, high(t, Role::Body), t.mm(1)), words, Role::Body, {.quiet = true});
  const Rect cells = cut_top(room, choice_height(t, options, room.w), t.gap());
  return choice(t, cells, options, chosen);
}

std::vector<engine::Leak> turned(std::vector<engine::Leak> leaks, engine::Leak leak) {
  const auto at = std::find(leaks.begin(), leaks.end(), leak);
  if (at != leaks.end())
    leaks.erase(at);
  else
    leaks.push_back(leak);
  std::sort(leaks.begin(), leaks.end());
  return leaks;
}

// Several may be so.
std::optional<engine::Leak> leaks_asked(Touch& t, Rect& room, const std::vector<engine::Leak>& now,
                                        std::span<const std::string> names) {
  say(t, cut_top(room, high(t, Role::Body), t.mm(1)), "To close before vapor; said at its turn",
      Role::Body, {.quiet = true});
  const float most = t.mm(17) * 2 + t.gap();
  const std::vector<Rect> cells =
      grid(cut_top(room, std::min(room.h, most), t.gap()), 2, 2, t.gap());
  std::optional<engine::Leak> tapped;
  for (std::size_t i = 0; i < names.size(); ++i) {
    const auto leak = static_cast<engine::Leak>(i);
    const bool there = std::find(now.begin(), now.end(), leak) != now.end();
    if (check_row(t, cells[i], names[i], there)) tapped = leak;
  }
  return tapped;
}

}  // namespace

Ask kind_page(Touch& t, Rect room, YardsView& v, const engine::Colony& c) {
  static const std::array<std::string, 4> kSorts{"Hive", "Nuc", "Swarm", "Package"};
  static const std::array<std::string, 2> kQueens{"Has a queen", "Queenless"};
  static const std::array<std::string, 4> kLeaks{"Upper entrance", "Drain hole", "Screened floor",
                                                 "Cracks"};
  static_assert(kSorts.size() == engine::enum_names(engine::ColonySort{}).size());
  static_assert(kLeaks.size() == engine::enum_names(engine::Leak{}).size());
  bool back = false;
  head(t, room, c.name, "its kind, its queen, its leaks", &back);
  if (back) v.page_of = YardsPage::None;
  engine::ColonyChanged e{c.id};
  if (const auto tapped = asked(t, room, "What stands here?", kSorts, static_cast<int>(c.sort)))
    e.sort = static_cast<engine::ColonySort>(*tapped);
  if (const auto tapped = asked(t, room, "Its queen", kQueens, c.queenless ? 1 : 0))
    e.queenless = *tapped == 1;
  if (const auto leak = leaks_asked(t, room, c.leaks, kLeaks)) e.leaks = turned(c.leaks, *leak);
  if (!e.sort && !e.queenless && !e.leaks) return {};
  return engine::Body{e};
}

}  // namespace ui
