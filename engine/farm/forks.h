// engine/farm/forks.h -- one side of a fork (engine/events/branches.h) as the keeper looks at it.
#pragma once
#include <string>
#include <vector>

#include "engine/farm/farm.h"

namespace engine {

// All that was entered on one side, on whatever forked from it later too.
struct ForkSide {
  DeviceId id;
  std::int64_t from = 0;    // the first number
  std::size_t entries = 0;  // struck ones too
  Stamp begin, end;         // of the first and of the last that came
};

// `id` is that of a branch of the farm. Quick: reads no more than the first and last entries.
[[nodiscard]] ForkSide side_of(const Farm& farm, DeviceId id);

// How many tablets wrote the farm's entries; the sides of a fork are one.
[[nodiscard]] std::size_t tablets(const Farm& farm);

// How many entries of a side are not struck yet; without strikes and what only says what was read.
[[nodiscard]] std::size_t to_strike(const Farm& farm, DeviceId id);

// The strikes, as entries of `device` from now on, that take back all of a side: of every entry
// that is not struck yet, the last one first, so that none stands on a struck one. Those that
// entries outside of the side stand on stay, and so do strikes (they cannot be struck).
[[nodiscard]] std::vector<Body> strikes_of_side(const Farm& farm, DeviceId id,
                                                const std::string& reason, DeviceId device,
                                                const Stamp& now);

}  // namespace engine
