// engine/farm/fold.h -- the parts of the fold that only engine/farm uses.
#pragma once
#include <set>

#include "engine/events/things.h"
#include "engine/farm/farm.h"

namespace engine {

// Like why_not, but without asking for the entry's number: an entry that is folded again after
// another was struck keeps its number.
[[nodiscard]] Refusal why_it_does_not_fit(const Farm& farm, const Event& e);

// Changes the farm, whatever speaks against it: for an event that fits or stands on record.
void fold_in(Farm& farm, const Event& e);
// Folds what is on record and fits, or stands all the same. Why it falls; None: it is in the farm.
Refusal fold_if_it_fits(Farm& farm, const Event& e);
// What the struck entry at `own` should have said, as if it had been said then. The correction
// falls where that does not fit.
void fold_corrected(Farm& farm, std::size_t own, const Entry& entry);

// Whether a course of a list can be placed: none of it is there, and its yard is, or it is there.
[[nodiscard]] Refusal why_not_placed(const Farm& farm, const CourseDates& dates);

// Named before the entry that brings it (farm.h).
[[nodiscard]] inline bool is_awaited(const KitItem& item) { return item.name.empty(); }

// Whether an entry behind `place` brings the thing into the farm, whatever is struck besides. Goes
// through the log: to be asked only where the thing is not there.
[[nodiscard]] bool lot_comes(const Log& log, std::size_t place, LotId lot);
[[nodiscard]] bool battery_comes(const Log& log, std::size_t place, KitId battery);
[[nodiscard]] bool yard_comes(const Log& log, std::size_t place, YardId yard);
[[nodiscard]] bool colony_comes(const Farm& farm, std::size_t place, ColonyId colony);
[[nodiscard]] bool colony_came_before(const Log& log, std::size_t place, ColonyId colony);

// What the body brings, where corrected words may name it before that: all but walks.
[[nodiscard]] std::optional<Thing> thing_to_wait_for(const Body& body);
// The first place before `place` at which words of a correction may hold otherwise when what brings
// one of these things comes, goes or changes; `place` when there is none.
[[nodiscard]] std::size_t first_waiting(const Log& log, const std::set<Thing>& things,
                                        std::size_t place);

// The walk under way of that tablet or, on a side of a fork that opened none, of what it goes on
// from; nullptr: none.
[[nodiscard]] const WalkId* walk_before(const Farm& farm, DeviceId device);

// What was set on that tablet so far, to be changed; a side of a fork begins with what it goes on
// from.
[[nodiscard]] TabletSetup& setup_to_change(Farm& farm, DeviceId device);
void change(Setup& setup, const SetupChanged& by);
// Whether other tablets may use it too.
[[nodiscard]] bool is_offer(const SetupChanged& change);
// Brings Farm::setup up to Farm::setups.
void show_own_setup(Farm& farm);

// Shows every entry with the ids that its own stand for, by the joins that are not struck, and
// marks those that do not hold; the first place from which the farm may be another for it.
[[nodiscard]] std::size_t mark_joins(Log& log);

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
