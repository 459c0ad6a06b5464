// ui/screens/today/pack_panel.h -- the headline of a pack list.
#pragma once
#include <string_view>

#include "engine/kit/packing_list.h"
#include "ui/touch/widgets.h"

namespace ui {

// In a panel that says whether something is missing; no `pack`: no label is chosen.
void pack_panel(Touch& t, const Rect& rect, std::string_view title, const engine::PackList* pack);

}  // namespace ui
