// storage/journal/journal_testing.h -- settings that make the journal weaker or busier, for tests
// only.
#pragma once
#include <functional>

#include "engine/events/event.h"

namespace storage {

struct JournalTesting {
  bool weak_sync = false;       // synchronous=NORMAL: the negative control of the power-cut tests
  int checkpoint_pages = 1000;  // fold the log into the store after so many pages
  // Called with each entry before the farm is folded with it; may throw, as a mistake in the
  // engine would.
  std::function<void(const engine::Event&)> before_folding{};
};

}  // namespace storage
