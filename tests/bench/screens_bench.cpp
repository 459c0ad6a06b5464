// How long one frame of each page takes to build, beside Today's, in the same run: screens_bench.
//
// The first frame of a page asks the engine; the ones after it should not. Prints milliseconds.
#include <algorithm>
#include <chrono>
#include <cstdio>
#include <vector>

#include "tests/support/farm_states.h"

namespace {

double frame_ms(test::Evening& e) {
  const auto from = std::chrono::steady_clock::now();
  e.redraw();
  return std::chrono::duration<double, std::milli>(std::chrono::steady_clock::now() - from).count();
}

}  // namespace

int main() {
  std::printf("%-26s %10s %10s\n", "page (ms)", "median", "worst");
  for (const test::FarmState& state : test::farm_states()) {
    test::Evening e(state.outfit);
    state.reach(e);
    std::vector<double> ms;
    for (int i = 0; i < 60; ++i) ms.push_back(frame_ms(e));
    std::sort(ms.begin(), ms.end());
    std::printf("%-26s %10.3f %10.3f\n", state.name.c_str(), ms[ms.size() / 2], ms.back());
  }
  return 0;
}
