// storage/bundle/sql_tables.h -- the tables of an office's PostgreSQL: what each is called, its
// columns, and how its rows are written. Private to storage.
#pragma once
#include <functional>
#include <span>
#include <string>
#include <vector>

#include "storage/bundle/copy_file.h"
#include "storage/bundle/sql_files.h"

namespace storage {

// What the rows of an export come from, and how many there were.
struct SqlExport {
  const Store& store;
  const Progress& progress;
  const std::function<bool()>& stopped;
  SqlWritten written{};
};

struct SqlColumn {
  const char* name;
  const char* type;  // as CREATE TABLE has it
};

// A table of the office. Entries are a set, kept once. What follows from them (all other tables) is
// what some store worked out of the entries it had: it is kept by export, and a view shows of each
// thing the row of the export that knew most.
struct SqlTable {
  const char* name;
  const char* key;
  std::vector<SqlColumn> (*columns)();
  engine::Status (*write)(CopyFile& out, SqlExport& from);
  const char* says = "";    // the comment of its view
  const char* refers = "";  // the table, and the column, whose rows must be there before
};

[[nodiscard]] std::span<const SqlTable> sql_tables();
// The file of its rows, in COPY's text form.
[[nodiscard]] std::string file_of(const SqlTable& table);
// The end of an export that was stopped.
[[nodiscard]] engine::Status sql_stopped();

}  // namespace storage
