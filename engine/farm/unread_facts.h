// engine/farm/unread_facts.h -- the facts that a strike would take along although neither its
// writer had read them, nor their writer the strike.
//
// Such a strike does not take effect (strike_marks.h). Which facts stand on what is struck is read
// from what the entries name, so the answer follows from the set of entries alone: it does not
// matter in which order they arrived, nor what else was struck.
#pragma once
#include <cstddef>
#include <map>
#include <vector>

#include "engine/farm/farm.h"

namespace engine {

// By the place of the strike, correction or taking back in the log, the places of the facts of
// other tablets; those without any are left out. `farm`: its log, in common order, its branches and
// numbers are asked. Quick where one tablet wrote everything, or every strike had been read.
[[nodiscard]] std::map<std::size_t, std::vector<std::size_t>> unread_facts(const Farm& farm);

}  // namespace engine
