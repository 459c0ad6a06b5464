// engine/farm/fold.h -- the parts of the fold that only engine/farm uses.
#pragma once
#include "engine/farm/farm.h"

namespace engine {

// Like why_not, but without asking for the entry's number: an entry that is folded again after
// another was struck keeps its number.
[[nodiscard]] Refusal why_it_does_not_fit(const Farm& farm, const Event& e);

// The walk under way of that tablet or, on a side of a fork that opened none, of what it goes on
// from; nullptr: none.
[[nodiscard]] const WalkId* walk_before(const Farm& farm, DeviceId device);

// Where the correction stands that holds in the place of an entry: correction_of, as a place.
[[nodiscard]] std::optional<std::size_t> correction_place(const Log& log, const Entry& entry);
// Whether the words may stand in the place of that entry: of its kind, and about the same thing.
[[nodiscard]] bool corrects_alike(const Entry& entry, const Replacement& instead);
// The strike that the body is or, as a correction, holds.
[[nodiscard]] std::optional<EntryStruck> strike_in(const Body& body);

// The log once more, as far as its entries from place `changed` on can matter, without the entries
// that are struck. An entry that stood on a struck one falls, unless it fits, or must have
// happened, all the same. Goes back to the nearest snapshot; others come and go with it.
[[nodiscard]] Farm fold_again(Farm farm, std::size_t changed = 0);

}  // namespace engine
