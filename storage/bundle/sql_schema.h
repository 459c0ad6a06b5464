// storage/bundle/sql_schema.h -- the SQL that makes and fills the tables of an office's PostgreSQL.
// Private to storage.
#pragma once
#include <string>

#include "engine/farm/farm.h"

namespace storage {

// Makes what is not there yet: schema, tables, views, comments.
[[nodiscard]] std::string sql_schema();
// Loads the files of one export, in one transaction, for psql.
[[nodiscard]] std::string sql_load(const engine::Farm& farm);

}  // namespace storage
