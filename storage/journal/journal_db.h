// storage/journal/journal_db.h -- the journal's SQLite connection, statements and tables.
//
// Inside storage/ only: it brings sqlite3.h along. Every failure is a Status in one line.
#pragma once
#include <sqlite3.h>

#include <memory>
#include <string>
#include <vector>

#include "storage/journal/kept_row.h"
#include "storage/journal/record.h"

namespace storage {

inline constexpr int kFormat = 1;  // the store's format version

struct DbCloser {
  void operator()(sqlite3* db) const { sqlite3_close(db); }
};
using Db = std::unique_ptr<sqlite3, DbCloser>;

// One prepared statement; usable again after reset(). Invalid when it could not be prepared.
class Query {
 public:
  Query(sqlite3* db, const char* sql) {
    sqlite3_prepare_v3(db, sql, -1, SQLITE_PREPARE_PERSISTENT, &statement_, nullptr);
  }
  ~Query() { sqlite3_finalize(statement_); }
  Query(const Query&) = delete;
  Query& operator=(const Query&) = delete;

  [[nodiscard]] bool valid() const { return statement_ != nullptr; }
  [[nodiscard]] int step() { return valid() ? sqlite3_step(statement_) : SQLITE_ERROR; }
  void reset() { sqlite3_reset(statement_); }

  // Text and hashes are not copied: they must live until the next reset.
  void bind(int at, std::int64_t value) { sqlite3_bind_int64(statement_, at, value); }
  void bind(int at, const std::string& text);
  void bind(int at, const Hash& hash);

  [[nodiscard]] std::int64_t number(int column) { return sqlite3_column_int64(statement_, column); }
  [[nodiscard]] std::string text(int column);
  [[nodiscard]] bool hash(int column, Hash& to);

 private:
  sqlite3_stmt* statement_ = nullptr;
};

// Says what went wrong with `path` last, in words for the keeper.
[[nodiscard]] Status status_of(sqlite3* db, const std::string& path, int rc);
[[nodiscard]] bool is_full(sqlite3* db, int rc);
[[nodiscard]] int run(sqlite3* db, const char* sql);

// Makes tables, triggers and the meta rows in one transaction.
[[nodiscard]] int make_tables(sqlite3* db, const std::string& device);
[[nodiscard]] int write_device(sqlite3* db, const std::string& device);
// Journal::secret(), which a backup must not hold.
[[nodiscard]] int write_secret(sqlite3* db, const std::string& secret);
[[nodiscard]] int forget_secret(sqlite3* db);
// Rows of meta (Journal::keep_rows).
[[nodiscard]] int write_kept(sqlite3* db, const KeptRow& row);
[[nodiscard]] std::vector<KeptRow> read_kept(sqlite3* db, const std::string& word);
// That this store wrote under that id up to there, and has another id from now on.
[[nodiscard]] KeptRow was_row(const std::string& device, std::int64_t seq, const Hash& hash);

// Ok when tables and triggers are exactly those that make_tables makes.
[[nodiscard]] bool has_our_tables(sqlite3* db);
[[nodiscard]] bool has_no_tables(sqlite3* db);

struct Meta {
  std::int64_t format = 0;
  std::string device;
  std::string secret;   // bytes; empty: there is none
  bool proven = false;  // its check row agrees
};
[[nodiscard]] Meta read_meta(sqlite3* db);

// A private database over a copy of `image`, for reading only.
[[nodiscard]] Db open_image(const std::string& image);

// The columns that read_row wants, in its order.
#define DUSKWALK_ROW_COLUMNS                                                               \
  "arrival, device, seq, at_utc_ms, zone_offset_min, boot_id, since_boot_ms, kind, prev, " \
  "hash, event"

struct Row {
  std::int64_t arrival = 0;
  Sealed sealed;
};
// False when the columns contradict each other or the hash does not hold.
[[nodiscard]] bool read_row(Query& query, Row& row);

}  // namespace storage
