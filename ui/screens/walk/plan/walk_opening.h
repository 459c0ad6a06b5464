// ui/screens/walk/plan/walk_opening.h -- the entry that START writes.
#pragma once
#include <string>
#include <vector>

#include "ui/screens/base/screen.h"
#include "ui/screens/state/walk_state.h"

namespace ui {

// Those that are to be walked; Opening::yard is set.
[[nodiscard]] std::vector<const engine::Colony*> colonies_to_walk(const Look& look,
                                                                  const Opening& opening);

// From what was noted; Opening::yard is set.
[[nodiscard]] engine::WalkOpened walk_opening(const Look& look, const WalkView& view);

// What the label in force says against the walk, honey supers apart; empty: nothing known. Opening
// it all the same must be held, and stands in its reason.
[[nodiscard]] std::vector<std::string> walk_against_label(const Look& look, const Opening& opening);

// Those to be walked whose brood the label in force asks about and nobody noted.
[[nodiscard]] std::vector<engine::ColonyId> walk_brood_not_known(const Look& look,
                                                                 const Opening& opening);
// "CHECK YOUR LABEL: ..." about them; empty: there are none. Then opening must be held as well.
[[nodiscard]] std::string walk_brood_question(const Look& look, const Opening& opening);

}  // namespace ui
