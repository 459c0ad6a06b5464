// ui/touch/faults.h -- what a shown frame gets wrong, as lines a test can print.
#pragma once
#include <string>
#include <vector>

#include "ui/touch/touch.h"

namespace ui {

[[nodiscard]] std::vector<std::string> small_targets(const Touch& t);  // under 20 x 15 mm
[[nodiscard]] std::vector<std::string> tight_gaps(const Touch& t);     // under 3 mm apart
[[nodiscard]] std::vector<std::string> pale_texts(const Touch& t);     // contrast under 7
[[nodiscard]] std::vector<std::string> overflows(const Touch& t);      // cut, or off the screen
[[nodiscard]] std::vector<std::string> double_labels(const Touch& t);  // two targets called alike
// All of the above.
[[nodiscard]] std::vector<std::string> faults(const Touch& t);

}  // namespace ui
