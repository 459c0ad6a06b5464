#include "engine/farm/snapshots.h"

#include <algorithm>
#include <cassert>

namespace engine {
namespace {

// A snapshot goes when its neighbours are no further apart than it is from the end.
void thin_out(std::vector<Snapshot>& snapshots, std::size_t end) {
  for (std::size_t i = snapshots.size(); i-- > 1;) {
    if (i + 1 >= snapshots.size()) continue;
    if (snapshots[i + 1].entries - snapshots[i - 1].entries <= end - snapshots[i].entries)
      snapshots.erase(snapshots.begin() + static_cast<std::ptrdiff_t>(i));
  }
}

}  // namespace

void add_snapshot(Farm& f, std::size_t entries) {
  assert(entries <= f.log.size());
  const std::size_t last = f.snapshots.empty() ? 0 : f.snapshots.back().entries;
  assert(entries >= last);
  if (entries < last + std::max(kSnapshotsApart, entries / kSnapshotsOfLog)) return;
  f.snapshots.push_back({entries, std::make_shared<const FarmState>(f)});
  thin_out(f.snapshots, entries);
  assert(f.snapshots.back().entries == entries);
}

}  // namespace engine
