// ui/touch/code.h -- a two-dimensional code on the screen, for a scanner to read off it.
#pragma once
#include <vector>

#include "ui/touch/touch.h"

namespace ui {

// Rows of modules, true is dark. Black on white in every theme, with the quiet zone of four modules
// that scanners want; modules are squares of whole pixels, as large as `rect` lets them be.
void code(Touch& t, const Rect& rect, const std::vector<std::vector<bool>>& dark);

}  // namespace ui
