// engine/farm/would_fall.h -- what striking, correcting and taking back would take along, tried on
// a copy of the farm.
//
// No list says what stands on what: the entry is folded into a copy, and what counted before and
// does not after is what would fall. Facts (engine/events/kind_facts.h) among them make the entry
// impossible (Refusal::OthersStandOnIt). Costs as much as apply.
#pragma once
#include <span>
#include <vector>

#include "engine/farm/farm.h"

namespace engine {

// The entries that count now and would not count after `events`, in the order of the log; without
// those that the events themselves strike. Each event must be possible after those before it, but
// for OthersStandOnIt (why_not_on_record).
[[nodiscard]] std::vector<EntryRef> what_would_fall(const Farm& farm,
                                                    std::span<const Event> events);

// For an entry that why_not_on_record takes: OthersStandOnIt where facts would fall, or why its own
// words, or the entry that would count again, would not hold where they belong.
[[nodiscard]] Refusal why_not_tried(const Farm& farm, const Event& e);

}  // namespace engine
