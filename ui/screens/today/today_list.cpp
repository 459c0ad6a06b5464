#include "ui/screens/today/today_list.h"

#include <fmt/format.h>

#include <algorithm>
#include <cmath>

#include "ui/screens/base/cards.h"
#include "ui/screens/base/drawing.h"
#include "ui/screens/base/layout.h"

namespace ui {

namespace {

using Kind = DueItem::Kind;

std::function<void(Touch&, const Rect&)> picture_of(const DueItem& item) {
  switch (item.kind) {
    case Kind::Air:
      return icon_picture(Icon::Cloth);
    case Kind::Round:
    case Kind::Coming:
    case Kind::Walk:
    case Kind::ComeBack:
      return ring_picture(std::to_string(item.hives), item.row.tag_surface);
    case Kind::Treat:
    case Kind::PostCount:
    case Kind::Sample:
    case Kind::Count:
      return icon_picture(Icon::Counts);
    case Kind::DeadOut:
      return icon_picture(Icon::Skip);
    case Kind::StripsOut:
      return icon_picture(Icon::Register);
    case Kind::Wait:
      return icon_picture(Icon::Pause);
    case Kind::Kit:
      return icon_picture(Icon::Kit);
    case Kind::Label:
      return icon_picture(Icon::Setup);
  }
  return {};
}

Card card_of(const DueItem& item, bool chosen) {
  Card card{item.row.title, item.row.id, item.name};
  card.second = item.what;
  if (!item.row.second.empty()) card.second += (item.what.empty() ? "" : ", ") + item.row.second;
  card.tag = item.row.tag, card.mark = item.row.mark, card.tag_surface = item.row.tag_surface;
  card.chosen = chosen;
  card.picture = picture_of(item);
  return card;
}

// As many columns as leave the hives largest.
std::size_t columns_for(const Rect& room, std::size_t n) {
  std::size_t best = 1;
  float most = 0;
  for (std::size_t cols = 1; cols <= n; ++cols) {
    const auto lines = static_cast<float>((n + cols - 1) / cols);
    const float side = std::min(room.w / static_cast<float>(cols), room.h / lines);
    if (side > most) most = side, best = cols;
  }
  return best;
}

}  // namespace

std::size_t chosen_item(const std::vector<DueItem>& items, const std::string& id) {
  for (std::size_t i = 0; i < items.size(); ++i) {
    const std::string& own = items[i].row.id.empty() ? items[i].row.title : items[i].row.id;
    if (own == id) return i;
  }
  return 0;
}

void list_items(Touch& t, const Rect& room, TodayView& view, const std::vector<DueItem>& items) {
  const std::size_t chosen = chosen_item(items, view.chosen);
  if (items.empty()) return nothing_here(t, room, "Nothing is due today.");
  const auto tapped = cards(t, room, view.page, items.size(),
                            [&](std::size_t i) { return card_of(items[i], i == chosen); });
  if (!tapped) return;
  const Row& row = items[*tapped].row;
  view.chosen = row.id.empty() ? row.title : row.id;
}

void draw_stops(Touch& t, const Rect& rect, const engine::Walk& walk) {
  Rect room = panel(t, rect);
  const auto done = std::count_if(walk.stops.begin(), walk.stops.end(), [](const engine::Stop& s) {
    return s.phase == engine::Phase::Done;
  });
  say(t, cut_top(room, high(t, Role::Title), t.mm(1)),
      fmt::format("{} of {} hives", done, walk.stops.size()), Role::Title);
  const std::size_t n = walk.stops.size();
  if (n == 0) return;
  const std::size_t cols = columns_for(room, n);
  const auto cells = grid(room, cols, (n + cols - 1) / cols, t.mm(0.6F));
  for (std::size_t i = 0; i < n; ++i)
    draw_hive(t, cells[i], {.boxes = 2, .state = hive_state(walk, walk.stops[i])});
}

}  // namespace ui
