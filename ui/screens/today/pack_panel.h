// ui/screens/today/pack_panel.h -- what to pack, in pictures.
#pragma once
#include <string_view>

#include "engine/kit/packing_list.h"
#include "ui/screens/base/screen.h"

namespace ui {

// Four pictures with their numbers under a title; no `pack`: no label is chosen. True when it was
// tapped: the whole list stands behind it.
bool pack_panel(Touch& t, const Rect& rect, const Look& look, std::string_view title,
                const engine::PackList* pack);

}  // namespace ui
