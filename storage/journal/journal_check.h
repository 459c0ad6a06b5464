// storage/journal/journal_check.h -- is this store whole? Reads everything, changes nothing.
#pragma once
#include <optional>
#include <string>
#include <vector>

#include "storage/journal/fork_rows.h"
#include "storage/journal/journal_db.h"
#include "storage/journal/progress_mark.h"

namespace storage {

struct Findings {
  std::vector<std::string> problems;  // one line each; empty when the store is whole
  Meta meta;
  KnownEvents held;
  std::int64_t arrivals = 0;
  std::vector<ForkRow> sides;      // of forks, in the order in which they came
  std::int64_t proven_before = 0;  // so many of the first were not all read again

  [[nodiscard]] bool whole() const { return problems.empty(); }
};

// Database structure (integrity_check), tables and triggers, meta rows, every event's hash and
// columns, every device's chain, every entry of another side of a fork, gaps in the own device's
// numbers, and the tip.
[[nodiscard]] Findings check_store(sqlite3* db, const std::optional<ProgressMark>& tip);

// The same for a store that was whole up to `proven`: every later event is read, the newest known
// one of each device, and a part of the earlier ones, another part as the store grows. It is not
// whole unless all of that holds and `proven` speaks of this store.
[[nodiscard]] Findings check_later(sqlite3* db, const ProgressMark& proven,
                                   const std::optional<ProgressMark>& tip);

// How far the store got, for the file beside it.
[[nodiscard]] ProgressMark tip_of(const Findings& findings);

// The tablet's short name, as Setup, the register and bundles have it (engine::short_device).
[[nodiscard]] std::string short_name(const std::string& device);

}  // namespace storage
