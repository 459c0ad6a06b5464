#include "storage/journal/journal.h"

#include <doctest/doctest.h>
#include <sqlite3.h>
#include <sys/stat.h>

#include <ctime>
#include <fstream>
#include <random>

#include "tests/support/journal_fixture.h"

namespace journal_test {

using namespace storage;
using fixture::Folder;
using fixture::kOther;
using fixture::kTablet;
using fixture::record;
using fixture::records;
using fixture::small;

namespace {

Journal open(const std::string& path, JournalOptions options = small()) {
  auto journal = Journal::open(path, std::move(options));
  INFO(journal.status().message());
  REQUIRE(journal.ok());
  return std::move(journal).value();
}

// Runs SQL on the store behind the journal's back; the error text, or "".
std::string tamper(const std::string& path, const std::string& sql) {
  sqlite3* db = nullptr;
  REQUIRE(sqlite3_open(path.c_str(), &db) == SQLITE_OK);
  char* said = nullptr;
  sqlite3_exec(db, sql.c_str(), nullptr, nullptr, &said);
  const std::string error = said == nullptr ? "" : said;
  sqlite3_free(said);
  sqlite3_close(db);
  return error;
}

std::string bytes_of(const std::string& path) {
  std::ifstream file(path, std::ios::binary);
  return {std::istreambuf_iterator<char>(file), {}};
}

std::vector<Sealed> chain(const std::string& device, std::int64_t to) {
  std::vector<Sealed> events;
  for (const Record& r : records(1, to, device)) {
    events.push_back(seal(r, events.empty() ? Hash{} : events.back().hash));
  }
  return events;
}

}  // namespace

TEST_CASE("what was appended is replayed in the same order, also after closing") {
  const Folder folder;
  const std::string path = folder / "new/folders/store";
  {
    Journal journal = open(path);
    CHECK(journal.device() == kTablet);
    CHECK(journal.last(kTablet) == Head{});
    for (const Record& r : records(1, 50)) REQUIRE(journal.append(r).ok());
    REQUIRE(journal.append_all(records(51, 120)).ok());
  }
  const Journal journal = open(path);
  const auto events = fixture::all_of(journal);
  CHECK(events == chain(kTablet, 120));
  CHECK(journal.last(kTablet) == Head{120, events.back().hash});
  CHECK(journal.verify().ok());
  CHECK(journal.verify().events == 120);
}

TEST_CASE("any mix of single, grouped and merged events comes back in the order of arrival") {
  std::mt19937 random(20250712);
  for (int round = 0; round < 20; ++round) {
    const Folder folder;
    std::vector<Record> told;
    Journal journal = open(folder / "store");
    const auto other = chain(kOther, 60);
    std::size_t merged = 0;
    for (int step = 0; step < 25; ++step) {
      const std::int64_t next = journal.last(kTablet).seq + 1;
      const auto some = records(next, next + random() % 4);
      if (random() % 3 == 0) {
        REQUIRE(journal.adopt(other[merged]).ok());
        told.push_back(other[merged++].record);
      } else {
        REQUIRE(journal.append_all(some).ok());
        told.insert(told.end(), some.begin(), some.end());
      }
      if (random() % 7 == 0) {
        { const Journal closed = std::move(journal); }
        journal = open(folder / "store");
      }
    }
    std::vector<Record> heard;
    REQUIRE(journal.replay([&](const Sealed& s) { heard.push_back(s.record); }).ok());
    REQUIRE(heard == told);
    REQUIRE(journal.verify().ok());
  }
}

TEST_CASE("only the next number of the own tablet is taken, and a group is all or none") {
  const Folder folder;
  Journal journal = open(folder / "store");
  REQUIRE(journal.append(record(1)).ok());
  CHECK(journal.append(record(1)).code() == Code::BadInput);
  CHECK(journal.append(record(3)).code() == Code::BadInput);
  CHECK(journal.append(record(2, kOther)).code() == Code::BadInput);
  const std::vector<Record> hole{record(2), record(4)};
  CHECK(journal.append_all(hole).code() == Code::BadInput);
  Record bent = record(2);
  bent.body = "{ }";
  CHECK(journal.append(bent).code() == Code::BadInput);
  CHECK(journal.size() == 1);
  CHECK(journal.append_all({}).ok());
  CHECK(journal.append(record(2)).ok());
}

// Processor time, so that other work on the machine does not decide the outcome.
TEST_CASE("20,000 events go in at once in well under a second") {
  const Folder folder;
  Journal journal = open(folder / "store");
  auto all = records(1, 20'000);
  for (Record& r : all) r.body = R"({"colony":"B3","grams":2,"vaporizer":"wand 1"})";
  const std::clock_t start = std::clock();
  REQUIRE(journal.append_all(all).ok());
  const double took = static_cast<double>(std::clock() - start) / CLOCKS_PER_SEC;
  MESSAGE("20,000 events in one transaction: " << took << " s of processor time");
#if defined(NDEBUG) && !defined(__SANITIZE_ADDRESS__)
  CHECK(took < 1.0);
#endif
  CHECK(journal.verify().events == 20'000);
}

TEST_CASE("triggers refuse to change, delete or replace an event") {
  const Folder folder;
  const std::string path = folder / "store";
  { REQUIRE(open(path).append_all(records(1, 3)).ok()); }
  struct Row {
    std::string name, sql, said;
  };
  const std::string copy =
      "SELECT arrival, device, seq, 0, 0, '', 0, 'x', x'', x'', '' FROM events";
  const std::string later =
      "SELECT 9, device, seq, 0, 0, '', 0, 'x', x'', x'', '' FROM events WHERE seq = 2";
  const Row rows[] = {
      {"update", "UPDATE events SET kind = 'x'", "never changed"},
      {"update or replace", "UPDATE OR REPLACE events SET seq = 1 WHERE seq = 2", "never changed"},
      {"delete", "DELETE FROM events WHERE seq = 2", "never deleted"},
      {"insert or replace", "INSERT OR REPLACE INTO events " + copy, "never replaced"},
      {"replace under a new arrival", "REPLACE INTO events " + later, "never replaced"},
      {"insert or ignore changes nothing", "INSERT OR IGNORE INTO events " + copy,
       "never replaced"},
  };
  for (const Row& row : rows) {
    INFO(row.name);
    CHECK(tamper(path, row.sql).find(row.said) != std::string::npos);
  }
  CHECK(fixture::all_of(open(path)) == chain(kTablet, 3));
}

TEST_CASE("a second opening gets Busy and disturbs nothing") {
  const Folder folder;
  Journal first = open(folder / "store");
  REQUIRE(first.append(record(1)).ok());
  for (int i = 0; i < 3; ++i) {
    const auto second = Journal::open(folder / "store", small());
    REQUIRE_FALSE(second.ok());
    CHECK(second.status().code() == Code::Busy);
    CHECK(second.status().message().find("another program") != std::string::npos);
    REQUIRE(first.append(record(2 + i)).ok());
  }
  CHECK(first.verify().ok());
}

TEST_CASE("a store of a newer version is read as far as it can be, and not touched") {
  const Folder folder;
  const std::string path = folder / "store";
  { REQUIRE(open(path).append(record(1)).ok()); }
  REQUIRE(tamper(path,
                 "PRAGMA journal_mode = DELETE; PRAGMA user_version = 2;"
                 "UPDATE meta SET value = '2' WHERE key = 'format'") == "");
  const std::string before = bytes_of(path);
  const auto journal = Journal::open(path, small());
  REQUIRE(journal.ok());
  CHECK(journal.value().writable().code() == Code::TooNew);
  REQUIRE(journal.value().damage());
  CHECK(journal.value().damage()->line.find("newer version of this program") != std::string::npos);
  CHECK(journal.value().size() == 1);
  CHECK(bytes_of(path) == before);
  CHECK_FALSE(std::filesystem::exists(path + "-wal"));
}

TEST_CASE("what is not a journal is refused and left as it is") {
  struct Row {
    std::string name, content;
    Code want;
  };
  const Row rows[] = {
      {"a text", "colony,grams\nB3,2\n", Code::BadInput},
      {"a long text", std::string(20'000, 'x'), Code::BadInput},
      {"two bytes", "SQ", Code::BadInput},
  };
  const Folder folder;
  for (const Row& row : rows) {
    INFO(row.name);
    std::ofstream(folder / "file", std::ios::binary) << row.content;
    CHECK(Journal::open(folder / "file", small()).status().code() == row.want);
    CHECK(bytes_of(folder / "file") == row.content);
    CHECK_FALSE(std::filesystem::exists(folder / "file.tip"));
  }
  CHECK(Journal::open(folder / ".", small()).status().code() == Code::BadInput);
  tamper(folder / "base", "CREATE TABLE hives (x); INSERT INTO hives VALUES (1)");
  CHECK(Journal::open(folder / "base", small()).status().code() == Code::BadInput);
}

TEST_CASE("without leave to create, a missing store stays missing") {
  const Folder folder;
  JournalOptions options = small();
  options.create = false;
  CHECK(Journal::open(folder / "a/store", options).status().code() == Code::NotFound);
  CHECK_FALSE(std::filesystem::exists(folder / "a"));
  options.create = true;
  options.device = "tablet one";
  CHECK(Journal::open(folder / "store", options).status().code() == Code::BadInput);
}

TEST_CASE("an emptied or removed store is noticed by its tip, and not begun anew") {
  const Folder folder;
  const std::string path = folder / "store";
  { REQUIRE(open(path).append_all(records(1, 4)).ok()); }
  for (const bool removed : {false, true}) {
    std::filesystem::resize_file(path, 0);
    if (removed) std::filesystem::remove(path);
    Journal journal = open(path);
    REQUIRE(journal.damage());
    CHECK(to_text(journal.damage()->missing.at(kTablet)) == "1-4");
    CHECK(journal.append(record(5)).code() == Code::Damaged);
    CHECK(std::filesystem::exists(path) == !removed);
    if (!removed) CHECK(bytes_of(path).empty());
  }
}

TEST_CASE("an event that was changed with its triggers gone is found by its hash") {
  const Folder folder;
  const std::string path = folder / "store";
  { REQUIRE(open(path).append_all(records(1, 9)).ok()); }
  const std::string trigger =
      "CREATE TRIGGER no_update BEFORE UPDATE ON events BEGIN "
      "SELECT RAISE(ABORT, 'events are never changed'); END";
  REQUIRE(tamper(path, "DROP TRIGGER no_update; UPDATE events SET at_utc_ms = 1 WHERE seq = 4;" +
                           trigger) == "");
  const Journal journal = open(path);
  REQUIRE(journal.damage());
  CHECK(fixture::all_of(journal).size() >= 8);
  CHECK_FALSE(journal.verify().ok());
}

TEST_CASE("the ballast holds real blocks and can be set aside again") {
  const Folder folder;
  JournalOptions options = small();
  options.ballast_bytes = std::int64_t{4} << 20;
  Journal journal = open(folder / "store", options);
  struct stat info {};
  REQUIRE(::stat((folder / "store.ballast").c_str(), &info) == 0);
  CHECK(info.st_size >= options.ballast_bytes);
  CHECK(info.st_blocks * 512 >= options.ballast_bytes);
  CHECK_FALSE(journal.ballast_spent());
  CHECK(journal.restore_ballast());
}

TEST_CASE("a backup is one whole file that opens as a journal; nothing is replaced by it") {
  const Folder folder;
  Journal journal = open(folder / "store");
  REQUIRE(journal.append_all(records(1, 40)).ok());
  REQUIRE(journal.backup_to(folder / "copy").ok());
  CHECK(journal.backup_to(folder / "copy").code() == Code::BadInput);
  CHECK_FALSE(journal.backup_to(folder / "no/such/folder/copy").ok());
  CHECK_FALSE(std::filesystem::exists(folder / "copy-wal"));
  REQUIRE(journal.append(record(41)).ok());
  const Journal copy = open(folder / "copy");
  CHECK(fixture::all_of(copy) == chain(kTablet, 40));
  CHECK(copy.verify().ok());
}

}  // namespace journal_test
