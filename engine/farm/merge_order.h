// engine/farm/merge_order.h -- one farm from the events of several tablets.
//
// The same set of events gives the same farm, in whatever order and portions they arrived. They are
// put into one common order by a hybrid logical clock that no wrong wall clock can poison
// (common_clock.h); ties go by device and number. A side of a fork (branches.h) goes on from the
// clock of what both sides have in common. Nothing is dropped: an entry that does not fit stays in
// the log as fallen, and contradictions.h lists what the keeper must look at.
#pragma once
#include <vector>

#include "engine/farm/clocks.h"
#include "engine/farm/farm.h"

namespace engine {

// Each event once; of one tablet they may come in any order. The log's marks are not looked at.
[[nodiscard]] Log in_common_order(const Log& arrived, const Branches& branches = {});

// The farm after all of them, those of a side of a fork under its name. What knew nothing of the
// fork means the only side that had the number by then. Never refuses: what does not fit falls.
[[nodiscard]] Farm fold_together(const Log& arrived, Branches branches = {});
[[nodiscard]] Farm fold_together(std::vector<Event> events, Branches branches = {});

// The farm with these events taken in: as if all had been folded together, but only what comes
// after the earliest of them is folded anew. Each is new here, and of each tablet they follow what
// the farm has of it; none makes a fork, or names a number behind one. `farm` is in common order,
// as fold_together, take_together or put_in_order left it, with entries applied that came last (see
// to_come_last).
[[nodiscard]] Farm take_together(Farm farm, std::vector<Event> fresh);

// The farm after entries that came last while clocks were in doubt (Clocks::in_doubt): what they
// say to have read may tell which clock is wrong, so that earlier entries come in another order.
[[nodiscard]] Farm put_in_order(Farm farm);

// All of the farm with every strike left out: what falls here contradicts another entry by itself.
[[nodiscard]] Farm fold_without_strikes(const Farm& farm);

}  // namespace engine
