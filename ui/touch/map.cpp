#include "ui/touch/map.h"

#include <algorithm>

#include "ui/touch/face.h"
#include "ui/touch/lists.h"
#include "ui/touch/paint.h"
#include "ui/touch/text.h"

namespace ui {

namespace {

void draw_tile(Touch& t, const Rect& rect, const Tile& tile, Surface surface) {
  const Skin& skin = t.theme()[surface];
  draw_face(t, rect, surface, true);
  if (tile.current) paint_frame(t.draw(), rect, skin.ink, t.mm(1.3F));
  Rect room = inset(rect, t.mm(1.9F), t.mm(1.5F));
  if (!tile.word.empty()) {
    const Rect under = cut_bottom(room, std::min(line_height(t, Size::Small), room.h * 0.45F));
    text(t, under, tile.word, {.size = Size::Small, .quiet = true});
  }
  if (tile.mark != Mark::None) {
    const float side = std::min({t.mm(6.5F), room.h, room.w * 0.36F});
    draw_mark(t.draw(), tile.mark, cut_right(room, side, t.mm(0.8F)), skin.ink);
  }
  text(t, room, tile.label, {.size = Size::Large});
}

}  // namespace

std::optional<std::size_t> map(Touch& t, const Rect& rect, int& page, std::span<const Tile> tiles) {
  const MapPlan plan = plan_map(rect, tiles, t.least_w(), t.least_h(), t.gap());
  if (plan.pages.empty()) return std::nullopt;
  const auto pages = static_cast<int>(plan.pages.size());
  page = std::clamp(page, 0, pages - 1);
  std::optional<std::size_t> tapped;
  for (const Spot& spot : plan.pages[static_cast<std::size_t>(page)].spots) {
    const Tile& tile = tiles[spot.tile];
    const Hit hit = t.target(tile.label, spot.rect, tile.enabled);
    draw_tile(t, spot.rect, tile, face_of(hit, tile.enabled, tile.surface));
    if (hit.tapped) tapped = spot.tile;
  }
  Rect room = rect;
  if (pages > 1) pager(t, cut_bottom(room, t.least_h()), page, pages);
  return tapped;
}

}  // namespace ui
