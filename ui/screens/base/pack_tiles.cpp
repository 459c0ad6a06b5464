#include "ui/screens/base/pack_tiles.h"

#include <fmt/format.h>

#include <algorithm>

#include "ui/screens/base/layout.h"
#include "ui/screens/base/roles.h"

namespace ui {

namespace {

constexpr float kInset = 0.3F;  // mm, left and right of a number

PackTile acid_tile(const Look& look, const engine::PackAcid& acid) {
  const bool enough = acid.short_by().mg == 0;
  return {Icon::Acid, show(look, acid.needed), enough ? "acid" : "acid short", enough};
}

PackTile battery_tile(const engine::PackBatteries& b) {
  const int need = std::max(b.full_needed, 1);
  if (b.enough()) return {Icon::Battery, std::to_string(need), need == 1 ? "battery" : "batteries"};
  return {Icon::Battery, std::to_string(need), fmt::format("{} charged", b.full), false};
}

PackTile cloth_tile(const engine::PackList& pack) {
  const bool enough = pack.cloths > 0;
  return {Icon::Cloth, std::to_string(pack.cloths), pack.cloths == 1 ? "cloth" : "cloths", enough};
}

// The one that lasts longest.
PackTile respirator_tile(const engine::PackList& pack) {
  if (pack.respirators.empty()) return {Icon::Cartridge, "0", "respirator", false};
  std::optional<engine::Ms> most;
  for (const engine::PackRespirator& r : pack.respirators) {
    if (!r.left) return {Icon::Cartridge, std::to_string(pack.respirators.size()), "respirator"};
    most = std::max(most.value_or(*r.left), *r.left);
  }
  const auto hours = std::chrono::duration_cast<std::chrono::hours>(*most).count();
  return {Icon::Cartridge, fmt::format("{} h", std::max<std::int64_t>(0, hours)), "cartridge",
          most->count() > 0};
}

// The shape of what is not enough, in the tile's corner.
void draw_lack(Touch& t, const Rect& tile, Surface surface) {
  const float side = t.mm(4);
  const Rect box{tile.right() - side - t.mm(0.7F), tile.y + t.mm(0.7F), side, side};
  draw_mark(t.draw(), Mark::Warning, box, t.theme()[surface].ink);
}

// The room of icon and number, above the caption.
float number_high(const Touch& t, const Rect& tile) {
  return tile.h - t.mm(2) - high(t, tile.h < t.mm(24) ? Role::Small : Role::Body);
}
// The picture stands over its number, not beside it.
bool stacked(const Touch& t, const Rect& tile) {
  return number_high(t, tile) >= high(t, Role::Title) + t.mm(5);
}

// Else the width of the picture beside it.
float icon_beside(const Touch& t, const Rect& tile) {
  return std::min({number_high(t, tile), t.mm(8), tile.w * 0.35F});
}

// The numbers of neighbours have one size.
Role number_role(const Touch& t, const Rect& tile, const std::vector<PackTile>& tiles,
                 float width) {
  const bool tall = number_high(t, tile) >= high(t, Role::Headline) + t.mm(7);
  for (const Role role : {Role::Headline, Role::Title}) {
    if (role == Role::Headline && !tall) continue;
    const auto fits = [&](const PackTile& one) { return wide(t, one.number, role) <= width; };
    if (std::all_of(tiles.begin(), tiles.end(), fits)) return role;
  }
  return Role::Body;
}

Role caption_role(const Touch& t, const Rect& tile, const PackTile& one) {
  if (tile.h < t.mm(24)) return Role::Small;
  return role_for(t, one.caption, tile.w - t.mm(2), Role::Body, Role::Small);
}

void draw_tile(Touch& t, const Rect& rect, const PackTile& tile, Role role) {
  // Green is only what was counted.
  const Surface surface = !tile.enough          ? Surface::Warning
                          : tile.number.empty() ? Surface::Panel
                                                : Surface::Good;
  t.fill(rect, surface, t.mm(0.3F));
  Rect room = inset(rect, t.mm(kInset), t.mm(1));
  const Role said = caption_role(t, rect, tile);
  const Rect caption = cut_bottom(room, high(t, said));
  const Colour ink = t.theme()[surface].ink;
  if (tile.number.empty()) {
    draw_icon(t.draw(), tile.icon, inset(room, 0, t.mm(1)), ink);
  } else if (stacked(t, rect)) {
    say(t, cut_bottom(room, high(t, role)), tile.number, role, {.align = Align::Center});
    draw_icon(t.draw(), tile.icon, room, ink);
  } else {
    draw_icon(t.draw(), tile.icon, cut_left(room, icon_beside(t, rect), t.mm(1)), ink);
    say(t, room, tile.number, role, {.align = Align::Center});
  }
  say(t, caption, tile.caption, said, {.align = Align::Center});
  if (!tile.enough) draw_lack(t, rect, surface);
}

}  // namespace

std::vector<PackTile> pack_tiles(const Look& look, const engine::PackList& pack) {
  const PackTile third =
      pack.vaporizers.empty() ? PackTile{Icon::Kit, "0", "vaporizer", false} : cloth_tile(pack);
  return {acid_tile(look, pack.acid), battery_tile(pack.batteries), third, respirator_tile(pack)};
}

std::vector<PackTile> all_pack_tiles(const Look& look, const engine::PackList& pack) {
  const std::size_t vaporizers = pack.vaporizers.size();
  const bool clean = pack.to_clean.empty();
  return {acid_tile(look, pack.acid),
          battery_tile(pack.batteries),
          cloth_tile(pack),
          respirator_tile(pack),
          {Icon::Kit, std::to_string(vaporizers),
           !clean            ? "clean first"
           : vaporizers == 1 ? "vaporizer"
                             : "vaporizers",
           vaporizers > 0 && clean},
          {Icon::Water, "", "rinse water"},
          {Icon::Bucket, "", "against fire"},
          {Icon::Goggles, "", "eyes, gloves"}};
}

void draw_pack_tiles(Touch& t, const Rect& rect, const std::vector<PackTile>& tiles,
                     std::size_t lines) {
  const std::size_t cols = (tiles.size() + lines - 1) / lines;
  const auto cells = grid(rect, cols, lines, t.mm(1.5F));
  const float icon = stacked(t, cells[0]) ? 0 : icon_beside(t, cells[0]) + t.mm(1);
  const Role role = number_role(t, cells[0], tiles, cells[0].w - t.mm(2 * kInset) - icon);
  for (std::size_t i = 0; i < tiles.size(); ++i) draw_tile(t, cells[i], tiles[i], role);
}

}  // namespace ui
