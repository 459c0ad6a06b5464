#include "storage/journal/journal_db.h"

#include <fmt/format.h>

#include <algorithm>
#include <cerrno>
#include <cstdlib>
#include <cstring>
#include <string_view>

#include "storage/journal/wal_image.h"

namespace storage {
namespace {

// Name and SQL of every object, as sqlite_schema keeps them. The unique index has no SQL of its
// own. prev, hash and event come last and side by side: a broken file can be searched for them.
struct Object {
  const char* name;
  const char* sql;
};

constexpr Object kObjects[] = {
    {"meta", "CREATE TABLE meta (key TEXT PRIMARY KEY, value TEXT NOT NULL) STRICT, WITHOUT ROWID"},
    {"events",
     "CREATE TABLE events (arrival INTEGER PRIMARY KEY CHECK (arrival > 0), device TEXT NOT NULL, "
     "seq INTEGER NOT NULL, at_utc_ms INTEGER NOT NULL, zone_offset_min INTEGER NOT NULL, "
     "boot_id TEXT NOT NULL, since_boot_ms INTEGER NOT NULL, kind TEXT NOT NULL, "
     "prev BLOB NOT NULL, hash BLOB NOT NULL, event TEXT NOT NULL, UNIQUE (device, seq)) STRICT"},
    {"no_update",
     "CREATE TRIGGER no_update BEFORE UPDATE ON events BEGIN "
     "SELECT RAISE(ABORT, 'events are never changed'); END"},
    {"no_delete",
     "CREATE TRIGGER no_delete BEFORE DELETE ON events BEGIN "
     "SELECT RAISE(ABORT, 'events are never deleted'); END"},
    // INSERT OR REPLACE deletes without the delete trigger; this one comes before it.
    {"no_replace",
     "CREATE TRIGGER no_replace BEFORE INSERT ON events WHEN "
     "EXISTS (SELECT 1 FROM events WHERE arrival = NEW.arrival) OR "
     "EXISTS (SELECT 1 FROM events WHERE device = NEW.device AND seq = NEW.seq) BEGIN "
     "SELECT RAISE(ABORT, 'events are never replaced'); END"},
};

constexpr const char* kSecret = "secret";

std::string meta_check(std::string_view format, std::string_view device) {
  return hex(sha256(fmt::format("{}\n{}\n", format, device)));
}

int put_meta(sqlite3* db, const std::string& key, const std::string& value) {
  Query put(db, "INSERT INTO meta VALUES (?1, ?2) ON CONFLICT DO UPDATE SET value = ?2");
  put.bind(1, key);
  put.bind(2, value);
  const int rc = put.step();
  return rc == SQLITE_DONE ? SQLITE_OK : rc;
}

std::string get_meta(sqlite3* db, const std::string& key) {
  Query get(db, "SELECT value FROM meta WHERE key = ?1");
  get.bind(1, key);
  return get.step() == SQLITE_ROW ? get.text(0) : std::string{};
}

bool no_room(int error) { return error == ENOSPC || error == EDQUOT; }

}  // namespace

void Query::bind(int at, const std::string& text) {
  sqlite3_bind_text64(statement_, at, text.data(), text.size(), SQLITE_STATIC, SQLITE_UTF8);
}

void Query::bind(int at, const Hash& hash) {
  sqlite3_bind_blob64(statement_, at, hash.data(), hash.size(), SQLITE_STATIC);
}

std::string Query::text(int column) {
  const auto* const bytes = reinterpret_cast<const char*>(sqlite3_column_text(statement_, column));
  if (bytes == nullptr) return {};
  return {bytes, static_cast<std::size_t>(sqlite3_column_bytes(statement_, column))};
}

bool Query::hash(int column, Hash& to) {
  const void* const bytes = sqlite3_column_blob(statement_, column);
  const bool whole =
      bytes != nullptr && sqlite3_column_bytes(statement_, column) == static_cast<int>(to.size());
  if (whole) std::memcpy(to.data(), bytes, to.size());
  return whole;
}

bool is_full(sqlite3* db, int rc) {
  if ((rc & 0xff) == SQLITE_FULL) return true;
  return (rc & 0xff) == SQLITE_IOERR && no_room(sqlite3_system_errno(db));
}

Status status_of(sqlite3* db, const std::string& path, int rc) {
  const auto say = [&](Code code, std::string_view what) {
    return Status(code, fmt::format("The journal {}: {}", path, what));
  };
  if (is_full(db, rc)) {
    return say(Code::Full, "no room left on this disk. Nothing was stored; free some space.");
  }
  switch (rc & 0xff) {
    case SQLITE_BUSY:
    case SQLITE_LOCKED:
      return say(Code::Busy, "another program has it open. Close that program, then try again.");
    case SQLITE_READONLY:
    case SQLITE_PERM:
      return say(Code::ReadOnly, "the file or its folder may not be written.");
    case SQLITE_CORRUPT:
    case SQLITE_NOTADB:
      return say(Code::Damaged, "the file is damaged. Nothing was stored; copy the file away.");
    case SQLITE_CANTOPEN:
      return say(Code::Failed, "the file cannot be opened. Check the folder and its permissions.");
    case SQLITE_CONSTRAINT:
      return say(Code::BadInput, fmt::format("refused: {}.", sqlite3_errmsg(db)));
    default:
      break;
  }
  const int error = db == nullptr ? 0 : sqlite3_system_errno(db);
  if (error == ENODEV || error == ENXIO || error == ENOENT) {
    return say(Code::Gone, "the disk it lies on went away. Nothing was stored.");
  }
  return say(Code::Failed, fmt::format("the disk reported an error ({}, {}). Nothing was stored.",
                                       sqlite3_errstr(rc), rc));
}

int run(sqlite3* db, const char* sql) { return sqlite3_exec(db, sql, nullptr, nullptr, nullptr); }

int write_device(sqlite3* db, const std::string& device) {
  const std::string format = std::to_string(kFormat);
  int rc = put_meta(db, "format", format);
  if (rc == SQLITE_OK) rc = put_meta(db, "device", device);
  if (rc == SQLITE_OK) rc = put_meta(db, "check", meta_check(format, device));
  return rc;
}

int write_secret(sqlite3* db, const std::string& secret) {
  Hash bytes{};
  std::copy_n(secret.begin(), std::min(secret.size(), bytes.size()), bytes.begin());
  return put_meta(db, kSecret, hex(bytes));
}

int forget_secret(sqlite3* db) {
  return run(db, "PRAGMA secure_delete = ON; DELETE FROM meta WHERE key = 'secret'");
}

int write_kept(sqlite3* db, const KeptRow& row) { return put_meta(db, row.key, row.value); }

std::vector<KeptRow> read_kept(sqlite3* db, const std::string& word) {
  std::vector<KeptRow> rows;
  const std::string like = word + " *";
  Query all(db, "SELECT key, value FROM meta WHERE key GLOB ?1 ORDER BY key");
  all.bind(1, like);
  while (all.step() == SQLITE_ROW) rows.push_back({all.text(0), all.text(1)});
  return rows;
}

KeptRow was_row(const std::string& device, std::int64_t seq, const Hash& hash) {
  return {"was " + device, fmt::format("{} {}", seq, hex(hash))};
}

int make_tables(sqlite3* db, const std::string& device) {
  const std::string marks =
      fmt::format("PRAGMA application_id = {}; PRAGMA user_version = {};", kApplicationId, kFormat);
  int rc = run(db, "BEGIN EXCLUSIVE");
  if (rc == SQLITE_OK) rc = run(db, marks.c_str());
  for (const Object& object : kObjects) {
    if (rc == SQLITE_OK) rc = run(db, object.sql);
  }
  if (rc == SQLITE_OK) rc = write_device(db, device);
  if (rc == SQLITE_OK) rc = run(db, "COMMIT");
  if (rc != SQLITE_OK && sqlite3_get_autocommit(db) == 0) (void)run(db, "ROLLBACK");
  return rc;
}

bool has_our_tables(sqlite3* db) {
  Query all(db, "SELECT name, sql FROM sqlite_schema WHERE sql IS NOT NULL ORDER BY rowid");
  for (const Object& object : kObjects) {
    if (all.step() != SQLITE_ROW || all.text(0) != object.name || all.text(1) != object.sql) {
      return false;
    }
  }
  return all.step() == SQLITE_DONE;
}

bool has_no_tables(sqlite3* db) {
  Query any(db, "SELECT 1 FROM sqlite_schema");
  return any.step() == SQLITE_DONE;
}

Meta read_meta(sqlite3* db) {
  Meta meta;
  const std::string format = get_meta(db, "format");
  meta.format = std::strtoll(format.c_str(), nullptr, 10);
  meta.device = get_meta(db, "device");
  if (Hash secret{}; from_hex(get_meta(db, kSecret), secret))
    meta.secret.assign(secret.begin(), secret.end());
  meta.proven = get_meta(db, "check") == meta_check(format, meta.device);
  return meta;
}

Db open_image(const std::string& image) {
  sqlite3* raw = nullptr;
  const int opened = sqlite3_open_v2(":memory:", &raw, SQLITE_OPEN_READWRITE, nullptr);
  Db db(raw);
  auto* const copy = static_cast<unsigned char*>(sqlite3_malloc64(image.size() + 1));
  if (opened != SQLITE_OK || copy == nullptr) return nullptr;
  std::memcpy(copy, image.data(), image.size());
  const auto bytes = static_cast<sqlite3_int64>(image.size());
  const int rc = sqlite3_deserialize(raw, "main", copy, bytes, bytes,
                                     SQLITE_DESERIALIZE_FREEONCLOSE | SQLITE_DESERIALIZE_READONLY);
  if (rc != SQLITE_OK) return nullptr;  // sqlite3_deserialize has freed the copy
  sqlite3_db_config(raw, SQLITE_DBCONFIG_DEFENSIVE, 1, nullptr);
  (void)run(raw, "PRAGMA cell_size_check = ON; PRAGMA trusted_schema = OFF");
  return db;
}

bool read_row(Query& query, Row& row) {
  Record& r = row.sealed.record;
  row.arrival = query.number(0);
  r.device = query.text(1);
  r.seq = query.number(2);
  r.at_utc_ms = query.number(3);
  const std::int64_t zone = query.number(4);
  if (zone < -1440 || zone > 1440) return false;
  r.zone_offset_min = static_cast<int>(zone);
  r.boot_id = query.text(5);
  r.since_boot_ms = query.number(6);
  r.kind = query.text(7);
  const std::string event = query.text(10);
  return query.hash(8, row.sealed.prev) && query.hash(9, row.sealed.hash) &&
         row.sealed.hash == seal_hash(row.sealed.prev, event) && take_body(event, r);
}

}  // namespace storage
