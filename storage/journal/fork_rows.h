// storage/journal/fork_rows.h -- the events of the other sides of forks, as rows of the table meta.
// Inside storage/ only.
//
// The table events has one place for each number of a tablet; what does not fit there beside what
// is (another event of that number, or one on another chain) stands in meta: "side 000000000001",
// 2, 3 ... without gaps, each with its own hash. "sides" says how many there are, so that a lost
// one is noticed. Programs that know nothing of sides open such a store all the same.
#pragma once
#include <span>
#include <string>
#include <vector>

#include "storage/journal/journal_db.h"

namespace storage {

// Adds rows after the first `before` ones; within a transaction of the caller.
[[nodiscard]] int write_sides(sqlite3* db, std::span<const ForkRow> rows, std::int64_t before);

// Every whole row in order; one line in `problems` for each thing that is not as it was written.
[[nodiscard]] std::vector<ForkRow> read_sides(sqlite3* db, std::vector<std::string>& problems);

// How many there should be.
[[nodiscard]] std::int64_t count_sides(sqlite3* db);

// From now on this connection refuses to change, replace or delete such a row.
[[nodiscard]] int guard_sides(sqlite3* db);

}  // namespace storage
