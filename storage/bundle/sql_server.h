// storage/bundle/sql_server.h -- the tables of sql_files.h, loaded straight into a PostgreSQL.
#pragma once
#include <functional>
#include <string>

#include "storage/bundle/sql_files.h"

namespace storage {

// Loads the store into the server that `url` names ("postgresql://host/database", or the words of
// libpq's manual, 34.1.1), as load.sql of write_sql does: in one transaction, so that a server that
// goes away, a call that is stopped or a full disk there leaves the tables as they were; and any
// stores in any order and number end with the same rows. Rows are sent as they are made: memory
// does not grow with their number. Failed, in one line without the url: no server, no rights, gone.
[[nodiscard]] Result<SqlWritten> load_into_server(
    const Store& store, const std::string& url, const Progress& progress = {},
    const std::function<bool()>& stopped = [] { return false; });

}  // namespace storage
