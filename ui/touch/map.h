// ui/touch/map.h -- the colonies where they stand, each large enough for a glove.
//
// Where the true places leave room for tiles of 20 x 15 mm with 3 mm gaps, tiles stand there. Where
// they do not, the tiles move to the nearest places of a grid that keeps rows and order; rows that
// are too long go on in the next line, as in a text; what does not fit on one page goes, neighbours
// together, to the next. x runs right, y runs down (the caller turns the yard), in any unit.
#pragma once
#include <optional>
#include <span>
#include <string>
#include <vector>

#include "ui/touch/marks.h"
#include "ui/touch/touch.h"

namespace ui {

struct Tile {
  std::string label;  // "B3"
  float x = 0, y = 0;
  std::string word{};                 // "covered", "4:10": short, under the label
  Mark mark = Mark::None;             // the state as a shape
  Surface surface = Surface::Button;  // and as a ground
  bool current = false;               // thick frame: what now
  bool enabled = true;
};

// Returns the tile tapped; `page` is kept in range.
std::optional<std::size_t> map(Touch& t, const Rect& rect, int& page, std::span<const Tile> tiles);

// The placing alone, pure.
struct Spot {
  std::size_t tile = 0;
  Rect rect;
};
struct MapPage {
  std::vector<Spot> spots;
};
struct MapPlan {
  std::vector<MapPage> pages;
  bool true_places = false;  // all at their scaled places; false: order only
};
[[nodiscard]] MapPlan plan_map(const Rect& rect, std::span<const Tile> tiles, float least_w,
                               float least_h, float gap);

}  // namespace ui
