// storage/bundle/sql_schema.h -- the SQL that makes and fills the tables of an office's PostgreSQL.
// Private to storage.
#pragma once
#include <string>
#include <utility>
#include <vector>

#include "engine/farm/farm.h"
#include "storage/bundle/sql_tables.h"

namespace storage {

// Makes what is not there yet: schema, tables, views, comments.
[[nodiscard]] std::string sql_schema();

// The views that people ask, and the role duskwalk_reader, which may only read.
[[nodiscard]] std::string sql_views();

// Which entries a store had: how many, and up to which number of each tablet or side of a fork. The
// same entries have the same name, whichever tablet exports them.
struct SqlNames {
  std::string name;  // hexadecimal digits
  std::size_t known = 0;
  std::vector<std::pair<std::string, std::int64_t>> devices;

  explicit SqlNames(const engine::Farm& farm);
};

// A load in its order: begin, schema, export, for each table stage, its rows and upsert; end. One
// transaction, and one load at a time.
[[nodiscard]] std::string begin_sql();
[[nodiscard]] std::string export_sql(const SqlNames& names);
[[nodiscard]] std::string stage_sql(const SqlTable& table);
[[nodiscard]] std::string upsert_sql(const SqlTable& table, const SqlNames& names);
[[nodiscard]] std::string end_sql();

// The same for psql, with the rows in files.
[[nodiscard]] std::string sql_load(const engine::Farm& farm);

}  // namespace storage
