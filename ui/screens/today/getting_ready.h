// ui/screens/today/getting_ready.h -- from an empty store to the first walk: what is there, what is
// missing, and the next step.
#pragma once
#include <optional>
#include <string>
#include <vector>

#include "ui/screens/base/screen.h"
#include "ui/touch/icons.h"

namespace ui {

// One thing that a first walk needs, or that can be said later.
struct FirstStep {
  std::string name;   // "Yard"
  std::string there;  // "2 yards"; empty: it is missing
  Icon icon = Icon::None;
  bool later = false;                // a walk can be opened without it
  std::string act;                   // of the one button: "Add a yard"
  std::string why;                   // one line under it
  GoTo way;                          // where it is entered, or looked at
  std::optional<engine::Body> adds;  // what the one button records at once; none: it leads there
};

// In the order in which a keeper would go through them.
[[nodiscard]] std::vector<FirstStep> first_steps(const Look& look);

// Nothing was ever walked, planned or counted here: the page leads to the first walk.
[[nodiscard]] bool is_first_use(const engine::Farm& farm);

// All steps as pictures, the next one as the one act.
Ask getting_ready(Touch& t, Rect room, const Look& look);

}  // namespace ui
