// ui/screens/base/pack_tiles.h -- what to take along, as pictures with numbers.
#pragma once
#include <string>
#include <vector>

#include "engine/kit/packing_list.h"
#include "ui/screens/base/screen.h"
#include "ui/touch/icons.h"

namespace ui {

struct PackTile {
  Icon icon = Icon::None;
  std::string number;   // in large type: "26 g"; empty: it is not counted
  std::string caption;  // "acid"; what is wrong, where it is not enough: "acid short"
  bool enough = true;
};
// Acid, batteries, cloths, respirator: what runs out. Where there is no vaporizer it takes the
// place of the cloths: without it nobody needs one.
[[nodiscard]] std::vector<PackTile> pack_tiles(const Look& look, const engine::PackList& pack);

// These and the vaporizers, then water, a bucket and protection, which the kit does not count.
[[nodiscard]] std::vector<PackTile> all_pack_tiles(const Look& look, const engine::PackList& pack);

// In one line of equal tiles, or two lines where `lines` is 2; a tile that is not enough wears the
// warning and its shape.
void draw_pack_tiles(Touch& t, const Rect& rect, const std::vector<PackTile>& tiles,
                     std::size_t lines = 1);

}  // namespace ui
