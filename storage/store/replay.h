// storage/store/replay.h -- the farm that the entries of a journal make, whatever they are.
//
// All entries that can be read, do not wait behind a gap and count (counting.h) are folded in their
// common order (engine/farm/merge_order.h): one that does not fit stays in the log as fallen, and
// is a contradiction. No entry makes a replay fail: one that this version cannot read or work out
// is kept in the journal, left out of the farm and named. Inside storage/ only.
#pragma once
#include <vector>

#include "storage/journal/journal.h"
#include "storage/store/counting.h"
#include "storage/store/guarded_fold.h"

namespace storage {

struct Replayed {
  engine::Farm farm;
  engine::Clocks clocks;
  std::vector<Unshown> unshown;
};

// Failed: the journal cannot be read just now.
[[nodiscard]] Result<Replayed> replay(const Journal& journal, const GuardedFold& fold,
                                      const Counting& counting);

// Of all entries of the farm's log.
[[nodiscard]] engine::Clocks clocks_of(const engine::Farm& farm);

}  // namespace storage
