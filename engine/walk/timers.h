// engine/walk/timers.h -- the clocks of a walk under way, from its events and a "now".
#pragma once
#include <optional>
#include <vector>

#include "engine/walk/walk.h"

namespace engine {

// A timer runs from `since`; it is due when `elapsed` reaches `goal`.
struct Timer {
  ColonyId colony;
  Stamp since;
  Ms elapsed{};
  Ms goal{};
  Ms least{};
  bool sure = true;      // false: only a wall clock that jumped could tell
  bool resting = false;  // a dwell without vapor: it does not go on
  [[nodiscard]] Ms left() const { return goal - elapsed; }  // negative when over
  [[nodiscard]] bool due() const { return elapsed >= goal; }
  [[nodiscard]] bool too_short() const { return elapsed < least; }
};

// The dwell of each colony under vapor, and the seal of each covered one, in the order in which
// they come due (the longest overdue first).
[[nodiscard]] std::vector<Timer> dwells(const Walk& walk, const Stamp& now);
[[nodiscard]] std::vector<Timer> seals(const Walk& walk, const Stamp& now);

// Where each cloth of the walk is: on nothing, or on a colony with that colony's seal.
struct ClothPlace {
  KitId cloth;
  std::optional<Timer> seal;  // none: it is free
};
[[nodiscard]] std::vector<ClothPlace> cloth_places(const Walk& walk, const Stamp& now);

// The cloth to take next: a free one, else the one that has lain longest; nullopt: there is none.
[[nodiscard]] std::optional<ClothPlace> next_cloth(const Walk& walk, const Stamp& now);

// The soonest moment from now at which something becomes due; nullopt: nothing runs, or all is due.
[[nodiscard]] std::optional<Ms> until_next_due(const Walk& walk, const Stamp& now);

// How long the treatment dwelled, not counting while there was no vapor, and was closed, once that
// is known.
[[nodiscard]] std::optional<Elapsed> dwell_of(const Treatment& t);
[[nodiscard]] std::optional<Elapsed> seal_of(const Treatment& t);

}  // namespace engine
