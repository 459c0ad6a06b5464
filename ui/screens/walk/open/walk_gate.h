// ui/screens/walk/open/walk_gate.h -- the gate before the first vapor of a walk.
#pragma once
#include <string>
#include <vector>

#include "ui/screens/state/walk_state.h"

namespace ui {

// The five things to have on or at hand, with what each needs tonight.
struct ProtectionItem {
  engine::Protection item;
  std::string label, second;
};
[[nodiscard]] std::vector<ProtectionItem> protection_items(const Look& look,
                                                           const engine::Walk& walk);

Ask walk_gate(Touch& t, const Rect& room, const Look& look, const engine::Walk& walk,
              WalkView& view);

}  // namespace ui
