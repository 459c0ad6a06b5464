#include "ui/touch/map.h"

#include <algorithm>

#include "ui/touch/face.h"
#include "ui/touch/lists.h"
#include "ui/touch/paint.h"
#include "ui/touch/text.h"

namespace ui {

namespace {

constexpr float kMark = 4.6F;  // mm, the least a shape is told apart by

Rect room_of_spot(const Touch& t, const Rect& rect) { return inset(rect, t.mm(1.9F), t.mm(1.5F)); }

// One size for all labels of a page.
Size label_size(const Touch& t, const MapPage& page, std::span<const Tile> tiles) {
  std::vector<std::string_view> labels;
  float least = t.screen().w;
  for (const Spot& spot : page.spots) {
    labels.push_back(tiles[spot.tile].label);
    least = std::min(least, room_of_spot(t, spot.rect).w);
  }
  return common_size(t, labels, least - t.mm(kMark + 0.5F), Size::Large);
}

void draw_tile(Touch& t, const Rect& rect, const Tile& tile, Surface surface, Size size) {
  const Skin& skin = t.theme()[surface];
  draw_face(t, rect, surface, true);
  if (tile.current) paint_frame(t.draw(), rect, skin.ink, t.mm(1.1F));
  Rect room = room_of_spot(t, rect);
  if (!tile.word.empty()) {
    const Rect under = cut_bottom(room, std::min(line_height(t, Size::Small), room.h * 0.45F));
    text(t, under, tile.word, {.size = Size::Small, .quiet = true});
  }
  if (tile.mark != Mark::None) {
    const float left = room.w - text_width(t, tile.label, size) - t.mm(0.5F);
    const float side = std::clamp(left, t.mm(kMark), t.mm(6.5F));
    draw_mark(t.draw(), tile.mark, cut_right(room, side, t.mm(0.3F)), skin.ink);
  }
  text(t, room, tile.label, {.size = size});
}

}  // namespace

std::optional<std::size_t> map(Touch& t, const Rect& rect, int& page, std::span<const Tile> tiles) {
  const MapPlan plan = plan_map(rect, tiles, t.least_w(), t.least_h(), t.gap());
  if (plan.pages.empty()) return std::nullopt;
  const auto pages = static_cast<int>(plan.pages.size());
  page = std::clamp(page, 0, pages - 1);
  std::optional<std::size_t> tapped;
  const MapPage& shown = plan.pages[static_cast<std::size_t>(page)];
  const Size size = label_size(t, shown, tiles);
  for (const Spot& spot : shown.spots) {
    const Tile& tile = tiles[spot.tile];
    const Hit hit = t.target(tile.label, spot.rect, tile.enabled);
    draw_tile(t, spot.rect, tile, face_of(hit, tile.enabled, tile.surface), size);
    if (hit.tapped) tapped = spot.tile;
  }
  Rect room = rect;
  if (pages > 1) pager(t, cut_bottom(room, t.least_h()), page, pages);
  return tapped;
}

}  // namespace ui
