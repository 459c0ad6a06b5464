// ui/screens/walk/now/walk_yard.h -- the yard as a picture: its hives where they stand, each with
// its state on it, and the dotted way on.
#pragma once
#include <optional>

#include "ui/screens/base/drawing.h"
#include "ui/screens/state/walk_state.h"

namespace ui {

// A hive as the walk knows it; `next` is where the keeper goes now.
[[nodiscard]] HiveDrawing hive_of(const Look& look, const engine::Walk& walk,
                                  const engine::Stop& stop, bool next);
// "3" of "cloth 3".
[[nodiscard]] std::string cloth_number(const Look& look, engine::KitId cloth);

// The yard's x runs east and y north, and the screen's y runs down. Where a colony was never given
// its place, all stand in the order of the walk, and the answer is false.
bool place_hives(const Look& look, const engine::Walk& walk, bool portrait,
                 std::vector<Tile>& tiles);

// Each hive is a target that chooses its colony, a second tap lets go; where they are too many for
// a glove, the whole picture is one that opens the map. `current`: the colony of the step; `then`:
// of the one after it.
void draw_yard(Touch& t, const Rect& rect, const Look& look, const engine::Walk& walk,
               UnderWay& view, std::optional<engine::ColonyId> current,
               std::optional<engine::ColonyId> then);

}  // namespace ui
