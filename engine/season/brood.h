// engine/season/brood.h -- whether a colony has capped cells for mites to hide in.
//
// Known only from what the keeper noted: the queen caged or released, brood seen or none found.
// Days from the textbook (worker capped after day 8 or on day 9, out on day 21; drone out on day
// 24): the cautious one of two is taken.
#pragma once
#include <array>
#include <optional>
#include <vector>

#include "engine/farm/farm.h"

namespace engine {

enum class BroodState { Unknown, None, Present };
constexpr std::array<const char*, 3> enum_names(BroodState) {
  return {"unknown", "none", "present"};
}
[[nodiscard]] const char* words(BroodState b);

// From caging to the last drone out of its cell; the last worker is out on day 21.
inline constexpr int kDaysToBroodless = 24;
// From the first egg until a cell may be capped again.
inline constexpr int kDaysToCapped = 8;
// A keeper who saw brood is believed for this long; common practice, no published source.
inline constexpr int kDaysBroodBelieved = 21;

[[nodiscard]] BroodState brood_on(const std::vector<BroodNote>& notes, Date on);

// Days on which one round would meet every mite on bees: from `first` to `last`, both included.
struct BroodlessWindow {
  Date first{}, last{};
  bool caged = false;
};
// The window that is open on `on` or comes next, as far as the notes tell; nullopt: none. A queen
// still caged holds hers open for a week beyond its beginning (she should not stay longer).
[[nodiscard]] std::optional<BroodlessWindow> broodless_window(const std::vector<BroodNote>& notes,
                                                              Date on);

}  // namespace engine
