// storage/bundle/sql_files.h -- the store as tables for an office's PostgreSQL: a schema and one
// file a table in COPY's text form.
//
//   psql -d DATABASE -f load.sql      (in the folder) makes the schema "duskwalk" and fills it
//
// It can be loaded again, and together with the exports of other tablets, in any order and any
// number of times. Entries are a set, by device, number and hash. What follows from entries stands
// by export, and the views (yard, colony, treatment ...) show of each thing the row of the export
// that knew most entries; exports whose entries another one all has are dropped.
// So the end is the same whatever the order, and is a fresh load of the one export that has all.
// A copy to ask questions of, never the source: what the office learns goes back as bundles. The
// table `entry` holds every event with the bytes that were hashed, so that the chain can be checked
// there too (storage/JOURNAL.md), and in `side` the name of the side of a fork that it is on, under
// which the other tables have it as their `device`; `treatment` is the register. Text form:
// PostgreSQL manual, COPY, "File Formats" (tab, backslash escapes, \N for unknown). A NUL in a text
// is left out: whatever a store holds, load.sql goes through.
#pragma once
#include <functional>
#include <string>

#include "storage/disk/progress.h"
#include "storage/store/store.h"

namespace storage {

struct SqlWritten {
  std::int64_t entries = 0;
  std::int64_t treatments = 0;  // rows of the register
};

// Writes into `folder`, which is made when it is not there. BadInput: a file of one of these names
// exists; nothing is overwritten. All is written beside under names of PartFile first and gets its
// names when the last one is whole, load.sql at the end. After a failure, and when `stopped` says
// true, none of them is left; what a killed program left goes with the next call.
[[nodiscard]] Result<SqlWritten> write_sql(
    const Store& store, const std::string& folder, const Progress& progress = {},
    const std::function<bool()>& stopped = [] { return false; });

}  // namespace storage
