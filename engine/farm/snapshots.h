// engine/farm/snapshots.h -- states of the farm that are kept, so that a strike need not fold the
// whole log anew. They lie the denser the nearer to the end: about one for each doubling of the
// distance.
#pragma once
#include <cstddef>

#include "engine/farm/farm.h"

namespace engine {

inline constexpr std::size_t kSnapshotsApart = 512;  // entries: some milliseconds of folding

// A snapshot is a copy of all that the farm holds. Of a long log they lie a sixteenth of it apart,
// so that taking in a million entries copies the farm some eighty times and not two thousand, and
// the few that are kept near the end do not fill the memory; the fold after a strike is so much
// longer.
inline constexpr std::size_t kSnapshotsOfLog = 16;

// Keeps the state, into which the first `entries` are folded, unless the last snapshot is near.
void add_snapshot(Farm& f, std::size_t entries);

}  // namespace engine
