#include "ui/touch/code.h"

#include <algorithm>
#include <cmath>

#include "ui/touch/paint.h"

namespace ui {

void code(Touch& t, const Rect& rect, const std::vector<std::vector<bool>>& dark) {
  constexpr std::size_t kQuietModules = 4;  // ISO/IEC 18004, 5.3.8
  constexpr Colour kBlack{0, 0, 0}, kWhite{255, 255, 255};
  const auto modules = static_cast<float>(dark.size() + 2 * kQuietModules);
  const float side = std::floor(std::min(rect.w, rect.h) / modules);
  if (dark.empty() || side < 1) return;
  const float all = side * modules;
  const Rect ground{std::floor(rect.x + (rect.w - all) / 2), std::floor(rect.y), all, all};
  paint_rect(t.draw(), ground, kWhite);
  const float first = side * static_cast<float>(kQuietModules);
  for (std::size_t row = 0; row < dark.size(); ++row)
    for (std::size_t column = 0; column < dark[row].size(); ++column)
      if (dark[row][column])
        paint_rect(t.draw(),
                   {ground.x + first + side * static_cast<float>(column),
                    ground.y + first + side * static_cast<float>(row), side, side},
                   kBlack);
}

}  // namespace ui
