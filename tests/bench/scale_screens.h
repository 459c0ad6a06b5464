// tests/bench/scale_screens.h -- what a frame of each page takes over the generated operation.
#pragma once
#include "engine/farm/farm.h"

namespace operation {

// Prints, page by page, how long the frame of the tap took that led there, the longest of the 40
// after it (a page may gather what it shows over many frames) and the median of the next 20.
void measure_screens(const engine::Farm& farm);

}  // namespace operation
