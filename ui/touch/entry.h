// ui/touch/entry.h -- numbers and words without a keyboard.
//
// The text lives in the caller's view state (ImGui's own text field dies under on-screen keys).
// Both cover nothing by themselves: give them a dialog_panel() or a part of a screen.
#pragma once
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "ui/touch/touch.h"

namespace ui {

enum class Entry { Open, Cancelled, Done };

struct Preset {
  std::string label;  // "2 g"
  double value = 0;
};
struct NumberAsk {
  std::string title;  // "Acid left in the tin"
  std::string unit;   // "g"
  double low = 0, high = 0;
  int decimals = 0;  // 0: no decimal key; where `low` is below zero a key for the sign stands there
  std::vector<Preset> presets{};
  std::string hint{};  // said instead of the range: "year, month, day: 20270301"
};
struct NumberEntry {
  std::string typed;  // digits and at most one point ('.', whatever the screen shows)
  double value = 0;   // set when Done
};
// OK is grey while nothing or something out of range is typed; a preset is done at once.
Entry keypad(Touch& t, const Rect& rect, const NumberAsk& ask, NumberEntry& entry);
// The number typed, if it is one inside the range.
[[nodiscard]] std::optional<double> number_typed(const NumberAsk& ask, std::string_view typed);

enum class Keys { Upper, Lower, Signs };
struct TextEntry {
  std::string typed;        // UTF-8
  Keys keys = Keys::Upper;  // Upper falls back to Lower after one letter
};
struct TextAsk {
  std::string title;
  std::size_t most = 40;  // letters
  bool may_be_empty = false;
};
Entry letters(Touch& t, const Rect& rect, const TextAsk& ask, TextEntry& entry);

}  // namespace ui
