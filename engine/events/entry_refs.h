// engine/events/entry_refs.h -- the entries that an entry names, and an entry as a side of a fork
// has it (engine/events/branches.h).
#pragma once
#include <functional>

#include "engine/events/branches.h"
#include "engine/events/event.h"

namespace engine {

// f(ref) for each entry that the body names, so that f may change it. What ClockFollowed has read
// is no part of that: it stays as it was written (ClockLines says which side of a fork was read).
void each_entry_ref(Body& body, const std::function<void(EntryRef&)>& f);

// Whether it names an entry that may be any side's: what it means is told among all entries only.
[[nodiscard]] bool names_a_fork(Event e, const Branches& branches);

// The entry under the side's name. What it says of its own tablet's entries it says of those that
// this side goes on from: no other was known where it was written.
[[nodiscard]] Event on_side(Event e, DeviceId side, const Branches& branches);

}  // namespace engine
