// ui/screens/answers/budget.h -- how much is worked out between two frames.
#pragma once
#include <cstddef>

namespace ui {

// Own choices. A walk, a plan or a row of cloths takes up to a second for a hundred colonies; a
// course of the survey some milliseconds.
struct Budget {
  int walks = 1;
  int plans = 4;
  int cloth_rows = 1;
  std::size_t courses = 2;
};

}  // namespace ui
