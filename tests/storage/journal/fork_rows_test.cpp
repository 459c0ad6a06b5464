#include "storage/journal/fork_rows.h"

#include <doctest/doctest.h>

#include "tests/support/journal_fixture.h"

namespace fork_rows_test {

using namespace storage;
using namespace fixture;

namespace {

Db tables() {
  sqlite3* raw = nullptr;
  REQUIRE(sqlite3_open(":memory:", &raw) == SQLITE_OK);
  Db db(raw);
  REQUIRE(make_tables(raw, kTablet) == SQLITE_OK);
  return db;
}

std::vector<ForkRow> three() {
  std::vector<ForkRow> rows;
  for (const Record& r : records(5, 7, kOther))
    rows.push_back(
        {seal(r, rows.empty() ? sha256("before") : rows.back().sealed.hash), r.seq + 10});
  return rows;
}

Db tables_with_three() {
  Db db = tables();
  const auto rows = three();
  REQUIRE(write_sides(db.get(), std::span(rows).first(1), 0) == SQLITE_OK);
  REQUIRE(write_sides(db.get(), std::span(rows).subspan(1), 1) == SQLITE_OK);
  return db;
}

}  // namespace

TEST_CASE("entries of other sides read back as written, and the store stays one for all programs") {
  const Db db = tables_with_three();
  std::vector<std::string> problems;
  const auto back = read_sides(db.get(), problems);
  CHECK(problems.empty());
  REQUIRE(back.size() == 3);
  for (std::size_t i = 0; i < 3; ++i) {
    CHECK(back[i].sealed == three()[i].sealed);
    CHECK(back[i].after == three()[i].after);
  }
  CHECK(has_our_tables(db.get()));
  const Meta meta = read_meta(db.get());
  CHECK(meta.proven);
  CHECK(meta.device == kTablet);
  CHECK(read_sides(tables().get(), problems).empty());
  CHECK(problems.empty());
}

TEST_CASE("a lost, added, moved or changed entry of another side is noticed") {
  struct Row {
    std::string name, sql;
    std::size_t whole;
  };
  const Row rows[] = {
      {"the first one is lost", "DELETE FROM meta WHERE key = 'side 000000000001'", 2},
      {"the last one is lost", "DELETE FROM meta WHERE key = 'side 000000000003'", 2},
      {"all are lost", "DELETE FROM meta WHERE key GLOB 'side *'", 0},
      {"the count is lost", "DELETE FROM meta WHERE key = 'sides'", 3},
      {"one is there twice",
       "INSERT INTO meta SELECT 'side 000000000004', value FROM meta WHERE key GLOB '*1'", 4},
      {"under another number", "UPDATE meta SET key = 'side 9' WHERE key GLOB '*3'", 3},
      {"a letter of the event", "UPDATE meta SET value = replace(value, 'boot-1', 'boot-2')", 0},
      {"a digit of the hash",
       "UPDATE meta SET value = replace(value, '\"prev\":\"', '\"prev\":\"0') WHERE key GLOB '*2'",
       2},
      {"no place in the order", "UPDATE meta SET value = substr(value, 4) WHERE key GLOB '*2'", 2},
  };
  for (const Row& r : rows) {
    INFO(r.name);
    const Db db = tables_with_three();
    REQUIRE(run(db.get(), r.sql.c_str()) == SQLITE_OK);
    std::vector<std::string> problems;
    CHECK(read_sides(db.get(), problems).size() == r.whole);
    CHECK_FALSE(problems.empty());
  }
}

TEST_CASE("a guarded store refuses to change, replace or delete one, and takes more") {
  const Db db = tables_with_three();
  REQUIRE(guard_sides(db.get()) == SQLITE_OK);
  CHECK(has_our_tables(db.get()));
  for (const char* sql :
       {"DELETE FROM meta WHERE key = 'side 000000000002'", "DELETE FROM meta",
        "UPDATE meta SET value = 'x' WHERE key = 'side 000000000002'",
        "INSERT OR REPLACE INTO meta VALUES ('side 000000000002', 'x')",
        "UPDATE OR REPLACE meta SET key = 'side 000000000002' WHERE key = 'side 000000000003'"}) {
    INFO(std::string(sql));
    CHECK(run(db.get(), sql) != SQLITE_OK);
  }
  const auto rows = three();
  CHECK(write_sides(db.get(), std::span(rows).first(1), 3) == SQLITE_OK);
  CHECK(write_device(db.get(), kOther) == SQLITE_OK);
  std::vector<std::string> problems;
  CHECK(read_sides(db.get(), problems).size() == 4);
  CHECK(problems.empty());
}

}  // namespace fork_rows_test
