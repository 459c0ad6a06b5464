#include "tests/bench/scale_screens.h"

#include <fmt/format.h>

#include <algorithm>
#include <chrono>
#include <exception>
#include <string>
#include <vector>

#include "tests/support/screen_harness.h"

namespace operation {
namespace {

using Labels = std::vector<std::string>;

double ms(const std::function<void()>& work) {
  const auto from = std::chrono::steady_clock::now();
  work();
  return std::chrono::duration<double, std::milli>(std::chrono::steady_clock::now() - from).count();
}

// Every page that shows something of the farm, by the taps that lead there.
std::vector<Labels> pages() {
  return {{"Today"},
          {"Yards"},
          {"Yards", "Yard 01"},
          {"Yards", "Yard 01", "Show map"},
          {"Yards", "Yard 01", "H0001"},
          {"Yards", "Yard 01", "H0061"},
          {"Yards", "Yard 01", "More"},
          {"Yards", "Yard 01", "More", "Driving"},
          {"Yards", "Yard 01", "Rounds"},
          {"Counts"},
          {"Counts", "Yard 01"},
          {"Courses"},
          {"Courses", "Yard 01"},
          {"Courses", "Yard 01", "What to expect"},
          {"Courses", "Yard 01", "Which treatment"},
          {"Courses", "Yard 01", "Brood and queens"},
          {"Courses", "Missed rounds"},
          {"Courses", "Evenings"},
          {"Kit"},
          {"Kit", "Cloths"},
          {"Kit", "Batteries"},
          {"Kit", "Batteries", "Battery B1"},
          {"Kit", "Acid"},
          {"Kit", "Acid", "L-2024"},
          {"Kit", "Pack list"},
          {"Register"},
          {"Register", "Find"},
          {"Register", "Find", "Yard"},
          {"Register", "Find", "Period"},
          {"Register", "Lots"},
          {"Register", "Lots", "L-2024"},
          {"Register", "Enter late"},
          {"Register", "Enter late", "Yard 01"},
          {"Register", "Other tablets"},
          {"Register", "Write the log"},
          {"Setup"},
          {"Setup", "Own numbers"},
          {"Setup", "About"}};
}

std::string joined(const Labels& taps) {
  std::string all;
  for (const std::string& tap : taps) all += (all.empty() ? "" : " > ") + tap;
  return all;
}

void measure(test::Evening& e, const Labels& taps) {
  e.views = {};
  e.redraw();
  for (std::size_t i = 0; i + 1 < taps.size(); ++i) e.tap(taps[i]);
  const double tap = ms([&] { e.tap(taps.back()); });
  std::vector<double> later;
  for (int i = 0; i < 60; ++i) later.push_back(ms([&] { e.redraw(); }));
  const double longest = *std::max_element(later.begin(), later.begin() + 40);
  std::sort(later.begin() + 40, later.end());
  fmt::print("{:<44} {:>9.2f} {:>9.2f} {:>9.3f}\n", joined(taps), tap, longest, later[50]);
  std::fflush(stdout);
}

}  // namespace

void measure_screens(const engine::Farm& farm) {
  test::Evening e;
  e.farm = farm;
  e.began = engine::after(farm.log.back()->event.stamp, engine::Ms{3'600'000});
  double longest = 0;
  int frames = 0;
  do longest = std::max(longest, ms([&] { e.redraw(); }));
  while (++frames, !e.book.whole());
  fmt::print("the register's book is read in {} frames, the longest {:.2f} ms\n", frames, longest);
  fmt::print("{:<44} {:>9} {:>9} {:>9}\n", "page (ms)", "the tap", "longest", "median");
  for (const Labels& taps : pages()) try {
      measure(e, taps);
    } catch (const std::exception& not_there) {
      fmt::print("{:<44} {}\n", joined(taps), std::string(not_there.what()).substr(0, 120));
    }
}

}  // namespace operation
