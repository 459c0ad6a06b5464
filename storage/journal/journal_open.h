// storage/journal/journal_open.h -- from a path to a store that is safe to use, or safe to read.
//
// Inside storage/ only. The order matters: look at the file's bytes; only a file that looks like a
// store of ours is given to SQLite, with everything off that could write; only when all checks
// passed is writing switched on. A store that fails is closed again and read from a copy in memory.
#pragma once
#include <optional>
#include <string>
#include <vector>

#include "storage/journal/journal.h"
#include "storage/journal/journal_check.h"
#include "storage/journal/journal_db.h"

namespace storage {

struct OpenedStore {
  Db db;  // the live store; a copy in memory when it may not be written; none when damaged
  Findings findings;
  std::optional<DamageReport> damage;
  std::vector<Sealed> salvaged;  // when damaged
  Status writable;
  bool handed_out = false;  // a copy in memory that the program with the store handed out
};

[[nodiscard]] Result<OpenedStore> open_store(const std::string& path,
                                             const JournalOptions& options);

// The same of the bytes of a snapshot of `path`: to be read, not written.
[[nodiscard]] Result<OpenedStore> open_bytes(const std::string& path, std::string bytes,
                                             const JournalOptions& options);

}  // namespace storage
