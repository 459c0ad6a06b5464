// engine/learn/recent.h -- how far back the kit is learned from. Internal to what learns.
#pragma once
#include "engine/farm/farm.h"

namespace engine {

// Own choice: the last 20,000 entries are some six thousand vapors, more than any battery lives,
// and soon read again after each new entry. A smaller log is learned from whole.
inline constexpr std::size_t kLearnedFrom = 20'000;

[[nodiscard]] inline std::size_t first_learned(const Farm& farm) {
  return farm.log.size() > kLearnedFrom ? farm.log.size() - kLearnedFrom : 0;
}

}  // namespace engine
