// engine/farm/fold.h -- the parts of the fold that only engine/farm uses.
#pragma once
#include "engine/farm/farm.h"

namespace engine {

// Like why_not, but without asking for the entry's number: an entry that is folded again after
// another was struck keeps its number.
[[nodiscard]] Refusal why_it_does_not_fit(const Farm& farm, const Event& e);

}  // namespace engine
