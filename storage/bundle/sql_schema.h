// storage/bundle/sql_schema.h -- the tables of an office's PostgreSQL, and the SQL that makes and
// fills them. Private to storage.
#pragma once
#include <span>
#include <string>

#include "engine/farm/farm.h"

namespace storage {

// A table of the office. Entries are a set, kept once. What follows from them (all other tables) is
// what some store worked out of the entries it had: it is kept by export, and a view shows of each
// thing the row of the export that knew most.
struct SqlTable {
  const char* name;
  const char* columns;  // as CREATE TABLE has them
  const char* key;
};

[[nodiscard]] std::span<const SqlTable> sql_tables();
// The file of its rows, in COPY's text form.
[[nodiscard]] std::string file_of(const SqlTable& table);

// Makes what is not there yet: schema, tables, views, comments.
[[nodiscard]] std::string sql_schema();
// Loads the files of one export, in one transaction, for psql.
[[nodiscard]] std::string sql_load(const engine::Farm& farm);

}  // namespace storage
