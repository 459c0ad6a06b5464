// ui/touch/buttons.h -- everything that is tapped on its own.
//
// The rectangle is the target: at least 20 x 15 mm with 3 mm to its neighbour (faults.h reports
// what is not). A label that counts or changes needs an `id` that does not.
#pragma once
#include <optional>
#include <span>
#include <string>
#include <string_view>
#include <vector>

#include "ui/touch/marks.h"
#include "ui/touch/touch.h"

namespace ui {

struct ButtonLook {
  bool enabled = true;
  Surface surface = Surface::Button;
  Mark mark = Mark::None;     // drawn left of the label
  std::string_view second{};  // a quieter line under the label (why it is grey, what it means)
  std::string_view id{};      // defaults to the label
  bool large = false;         // label in large type
};

// True in the frame in which the tap counted.
bool button(Touch& t, const Rect& rect, std::string_view label, const ButtonLook& look = {});

// The one thing to do now: huge label, one line under it.
bool action_button(Touch& t, const Rect& rect, std::string_view label, std::string_view line = {},
                   bool enabled = true, std::string_view id = {});

// For what cannot be undone: counts after one second with a filling bar.
bool hold_button(Touch& t, const Rect& rect, std::string_view label, const ButtonLook& look = {});

// A row (or, if too narrow, several rows) of options of which one is chosen; -1: none yet.
// Returns the option tapped; the caller keeps the choice.
std::optional<int> choice(Touch& t, const Rect& rect, std::span<const std::string> options,
                          int chosen, bool enabled = true);
// Height that choice() wants for these many options in this width.
[[nodiscard]] float choice_height(const Touch& t, std::span<const std::string> options,
                                  float width);

// A thing to tick off; true when tapped, the caller turns the tick.
bool check_row(Touch& t, const Rect& rect, std::string_view label, bool checked,
               std::string_view second = {}, bool enabled = true);

// Minus, value, plus: -1, 0 or +1. The targets are called "<label> -" and "<label> +".
int stepper(Touch& t, const Rect& rect, std::string_view label, std::string_view value,
            bool can_less = true, bool can_more = true);

}  // namespace ui
