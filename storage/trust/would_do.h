// storage/trust/would_do.h -- what entries that are held back would do, in a line for people who
// decide about them: not how many they are.
#pragma once
#include <span>
#include <string>
#include <vector>

#include "engine/farm/farm.h"

namespace storage {

// "strikes 14 treatments of 2026-08-14", "offers another dose for a brood box: 1 g
// dihydrate -> 9 g dihydrate", "adds 2 counts of 2026-08-15"; what changes a number or takes
// something away comes first.
// `held`: of one tablet, in its order; `farm`: without them.
[[nodiscard]] std::vector<std::string> would_do(const engine::Farm& farm,
                                                std::span<const engine::Event> held);

}  // namespace storage
