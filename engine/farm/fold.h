// engine/farm/fold.h -- the parts of the fold that only engine/farm uses.
#pragma once
#include "engine/farm/farm.h"

namespace engine {

// Like why_not, but without asking for the entry's number: an entry that is folded again after
// another was struck keeps its number.
[[nodiscard]] Refusal why_it_does_not_fit(const Farm& farm, const Event& e);

// correction_of while the log is folded again.
using LogIndex = std::map<EntryRef, std::size_t>;
[[nodiscard]] const Entry* correction_of(const std::vector<Entry>& log, const LogIndex& index,
                                         const Entry& entry);
// Whether the words may stand in the place of that entry: of its kind, and about the same thing.
[[nodiscard]] bool corrects_alike(const Entry& entry, const Instead& instead);
// The strike that the body is or, as a correction, holds.
[[nodiscard]] std::optional<EntryStruck> strike_in(const Body& body);

// Everything in the log once more from the beginning, without the entries that are struck. An entry
// that stood on a struck one falls, unless it fits, or must have happened, all the same.
[[nodiscard]] Farm fold_again(Farm old);

}  // namespace engine
