// storage/journal/journal_testing.h -- settings that make the journal weaker or busier, for tests
// only.
#pragma once

namespace storage {

struct JournalTesting {
  bool weak_sync = false;       // synchronous=NORMAL: the negative control of the power-cut tests
  int checkpoint_pages = 1000;  // fold the log into the store after so many pages
};

}  // namespace storage
