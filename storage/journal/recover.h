// storage/journal/recover.h -- what can still be read of a damaged store.
//
// Works on bytes, never on the files. An event counts as readable only when its hash proves it, so
// nothing half right gets in. Three ways are joined: reading the tables, asking for every event one
// by one, and searching the raw bytes (pages that no table leads to any more, frames of the log
// that SQLite drops).
#pragma once
#include <optional>
#include <string>
#include <string_view>
#include <vector>

#include "storage/journal/progress_mark.h"
#include "storage/journal/record.h"

namespace storage {

struct Salvage {
  std::vector<Sealed> events;  // in order of arrival as far as it can still be told
  std::vector<Sealed> sides;   // of other sides of forks
  std::int64_t sides_missing = 0;
  SeqRangesByDevice readable;
  SeqRangesByDevice
      missing;  // the tip or a later number of the same device proves that they existed
};

[[nodiscard]] Salvage salvage(std::string_view store, std::string_view wal,
                              const std::optional<ProgressMark>& tip);

// True when the bytes hold at least one event of ours, whatever the file looks like.
[[nodiscard]] bool holds_events(std::string_view bytes);

}  // namespace storage
