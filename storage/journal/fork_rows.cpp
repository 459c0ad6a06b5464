#include "storage/journal/fork_rows.h"

#include <fmt/format.h>

#include <charconv>

#include "storage/journal/events_jsonl.h"

namespace storage {
namespace {

constexpr const char* kCount = "sides";

std::string key_of(std::int64_t number) { return fmt::format("side {:012}", number); }

int put(sqlite3* db, const char* sql, const std::string& key, const std::string& value) {
  Query query(db, sql);
  query.bind(1, key);
  query.bind(2, value);
  const int rc = query.step();
  return rc == SQLITE_DONE ? SQLITE_OK : rc;
}

// "12 {"event":...}": what it came after, then the line that a bundle has too.
bool take_row(std::string_view text, ForkRow& row) {
  const auto [end, error] = std::from_chars(text.data(), text.data() + text.size(), row.after);
  text.remove_prefix(static_cast<std::size_t>(end - text.data()));
  if (error != std::errc{} || row.after < 0 || !text.starts_with(' ')) return false;
  auto sealed = read_events_jsonl(std::string(text.substr(1)) + "\n");
  if (!sealed.ok() || sealed.value().size() != 1) return false;
  row.sealed = std::move(sealed.value().front());
  return true;
}

}  // namespace

int write_sides(sqlite3* db, std::span<const ForkRow> rows, std::int64_t before) {
  if (rows.empty()) return SQLITE_OK;
  for (const ForkRow& row : rows) {
    std::string line = events_jsonl({&row.sealed, 1});
    line.pop_back();
    const int rc = put(db, "INSERT INTO meta VALUES (?1, ?2)", key_of(++before),
                       fmt::format("{} {}", row.after, line));
    if (rc != SQLITE_OK) return rc;
  }
  return put(db, "INSERT INTO meta VALUES (?1, ?2) ON CONFLICT DO UPDATE SET value = ?2", kCount,
             std::to_string(before));
}

std::int64_t count_sides(sqlite3* db) {
  Query count(db, "SELECT value FROM meta WHERE key = 'sides'");
  std::int64_t number = 0;
  const std::string text = count.step() == SQLITE_ROW ? count.text(0) : "";
  (void)std::from_chars(text.data(), text.data() + text.size(), number);
  return number;
}

std::vector<ForkRow> read_sides(sqlite3* db, std::vector<std::string>& problems) {
  std::vector<ForkRow> rows;
  const std::int64_t counted = count_sides(db);
  Query all(db, "SELECT key, value FROM meta WHERE key GLOB 'side *' ORDER BY key");
  std::int64_t number = 0;
  int rc = all.step();
  for (; rc == SQLITE_ROW; rc = all.step()) {
    ForkRow row;
    const bool in_place = all.text(0) == key_of(++number), whole = take_row(all.text(1), row);
    if (!in_place || !whole)
      problems.push_back(fmt::format(
          "entry {} of those of other sides of a fork is not as it was written", number));
    if (whole) rows.push_back(std::move(row));
  }
  if (rc != SQLITE_DONE) problems.emplace_back("not every entry of a fork can be read");
  if (counted != number)
    problems.push_back(fmt::format("{} entries of other sides of a fork were kept but {} are there",
                                   counted, number));
  return rows;
}

int guard_sides(sqlite3* db) {
  return run(db,
             "CREATE TEMP TRIGGER sides_no_update BEFORE UPDATE ON main.meta WHEN OLD.key GLOB "
             "'side *' BEGIN SELECT RAISE(ABORT, 'events are never changed'); END;"
             "CREATE TEMP TRIGGER sides_no_delete BEFORE DELETE ON main.meta WHEN OLD.key GLOB "
             "'side *' BEGIN SELECT RAISE(ABORT, 'events are never deleted'); END;"
             "CREATE TEMP TRIGGER sides_no_replace BEFORE INSERT ON main.meta WHEN NEW.key GLOB "
             "'side *' AND EXISTS (SELECT 1 FROM main.meta WHERE key = NEW.key) BEGIN "
             "SELECT RAISE(ABORT, 'events are never replaced'); END;");
}

}  // namespace storage
