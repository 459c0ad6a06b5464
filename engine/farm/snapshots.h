// engine/farm/snapshots.h -- states of the farm that are kept, so that a strike need not fold the
// whole log anew. They lie the denser the nearer to the end: about one for each doubling of the
// distance.
#pragma once
#include <cstddef>

#include "engine/farm/farm.h"

namespace engine {

inline constexpr std::size_t kSnapshotsApart = 512;  // entries: some milliseconds of folding

// Keeps the state, into which the first `entries` are folded, unless the last snapshot is near.
void add_snapshot(Farm& f, std::size_t entries);

}  // namespace engine
