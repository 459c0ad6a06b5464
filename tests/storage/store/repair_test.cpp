#include "storage/store/repair.h"

#include <doctest/doctest.h>
#include <unistd.h>

#include <filesystem>
#include <fstream>
#include <sstream>

#include "storage/journal/backup.h"
#include "tests/support/journal_fixture.h"

namespace repair_test {

namespace fs = std::filesystem;
using namespace fixture;

namespace {

storage::Store open_store(const std::string& path) {
  auto store = storage::Store::open(path, small());
  REQUIRE_MESSAGE(store.ok(), store.status().message());
  return std::move(store).value();
}

void note(storage::Store& store, int n) {
  const engine::Stamp s = *engine::stamp_from_rfc3339("2026-08-14T19:40:00-07:00");
  const engine::Stamp at = engine::after(s, engine::Seconds{n});
  const std::string words = fmt::format("word{:03}", n);
  REQUIRE(store.append(store.next(at, engine::NoteWritten{{}, {}, words})).ok());
}

std::string bytes_of(const std::string& path) {
  std::ostringstream all;
  all << std::ifstream(path, std::ios::binary).rdbuf();
  return all.str();
}

// A store of ten notes of which one byte of the seventh went bad.
void break_store(const std::string& path) {
  {
    storage::Store store = open_store(path);
    for (int n = 1; n <= 10; ++n) note(store, n);
  }
  std::string bytes = bytes_of(path);
  const std::size_t at = bytes.find("word007");
  REQUIRE(at != std::string::npos);
  bytes[at] = 'W';
  std::ofstream(path, std::ios::binary) << bytes;
}

std::size_t files_in(const Folder& folder) {
  return static_cast<std::size_t>(
      std::distance(fs::directory_iterator(folder / "."), fs::directory_iterator()));
}

}  // namespace

TEST_CASE("a damaged store goes on with what can be read, and is kept as it was") {
  const Folder folder;
  const std::string path = folder / "farm.journal";
  break_store(path);
  const std::string damaged = bytes_of(path);
  storage::Store store = open_store(path);
  REQUIRE(store.journal().damage());
  const auto mended = storage::mend(store, "damaged", kOther);
  REQUIRE_MESSAGE(mended.ok(), mended.status().message());
  CHECK(mended.value().entries == 9);
  CHECK(mended.value().kept == path + ".damaged");
  CHECK(bytes_of(path + ".damaged") == damaged);
  CHECK(store.damage().empty());
  CHECK(engine::text(store.device()) == kOther);
  note(store, 11);
  CHECK(store.journal().size() == 11);  // and that it has read what the old id wrote
}

TEST_CASE("what a backup holds closes the hole of a mended store") {
  const Folder folder;
  const std::string path = folder / "farm.journal";
  {
    storage::Store whole = open_store(folder / "whole");
    for (int n = 1; n <= 10; ++n) note(whole, n);
    REQUIRE(whole.journal().backup_to(folder / "copy").ok());
  }
  break_store(path);
  storage::Store store = open_store(path);
  REQUIRE(storage::mend(store, "damaged", kOther).ok());
  const auto events = storage::read_backup(folder / "copy", path + ".taking-in");
  REQUIRE_MESSAGE(events.ok(), events.status().message());
  const auto merged = store.merge(events.value());
  REQUIRE_MESSAGE(merged.ok(), merged.status().message());
  CHECK(merged.value().added == 1);
  CHECK(merged.value().known == 9);
  CHECK(store.farm().log.size() == 10);
}

TEST_CASE("a second damaged store gets a name of its own; a whole one is not mended") {
  const Folder folder;
  const std::string path = folder / "farm.journal";
  break_store(path);
  std::ofstream(path + ".damaged") << "kept before";
  storage::Store store = open_store(path);
  const auto mended = storage::mend(store, "damaged", kOther);
  REQUIRE(mended.ok());
  CHECK(mended.value().kept == path + ".damaged-2");
  CHECK(bytes_of(path + ".damaged") == "kept before");
  CHECK(storage::mend(store, "damaged", kThird).status().code() == engine::Code::BadInput);
}

TEST_CASE("a store that cannot be mended stays where it was, and open") {
  const Folder folder;
  const std::string path = folder / "farm.journal";
  break_store(path);
  storage::Store store = open_store(path);
  // The tablet's own id once more: the new store would write its numbers anew.
  const std::size_t files = files_in(folder);
  CHECK_FALSE(storage::mend(store, "damaged", kTablet).ok());
  CHECK(store.journal().damage());
  CHECK_FALSE(store.farm().log.empty());
  CHECK(files_in(folder) == files);
}

TEST_CASE("a damaged store is copied as it is, with what stands beside it, and never over a file") {
  const Folder folder;
  const std::string path = folder / "farm.journal", copy = folder / "copy";
  break_store(path);
  REQUIRE(storage::copy_as_it_is(path, copy).ok());
  CHECK(bytes_of(copy) == bytes_of(path));
  CHECK(bytes_of(copy + ".tip") == bytes_of(path + ".tip"));
  CHECK(storage::copy_as_it_is(path, copy).code() == engine::Code::BadInput);
  CHECK_FALSE(storage::copy_as_it_is(path, folder / "none/copy").ok());
}

TEST_CASE("what does not open is set aside, and a new store begun; a folder is let alone") {
  const Folder folder;
  const std::string path = folder / "farm.journal";
  std::ofstream(path) << "no store at all";
  CHECK_FALSE(storage::Store::open(path, small()).ok());
  const auto kept = storage::set_aside(path, "damaged");
  REQUIRE_MESSAGE(kept.ok(), kept.status().message());
  CHECK(kept.value() == path + ".damaged");
  CHECK(bytes_of(path + ".damaged") == "no store at all");
  storage::Store store = open_store(path);
  note(store, 1);
  CHECK(storage::set_aside(folder / ".", "damaged").status().code() == engine::Code::BadInput);
}

TEST_CASE("a store that may not be written goes on in one that may") {
  if (::geteuid() == 0) return;  // root may write all the same
  const Folder folder;
  const std::string path = folder / "farm.journal";
  {
    storage::Store store = open_store(path);
    note(store, 1);
  }
  fs::permissions(path, fs::perms::owner_read);
  storage::Store store = open_store(path);
  CHECK(store.writable().code() == engine::Code::ReadOnly);
  REQUIRE(storage::mend(store, "damaged", kOther).ok());
  note(store, 2);
  CHECK(store.farm().log.size() == 2);
}

TEST_CASE("what is no backup is not taken in, and leaves nothing behind") {
  const Folder folder;
  const std::string scratch = folder / "farm.journal.taking-in";
  {
    storage::Store store = open_store(folder / "whole");
    for (int n = 1; n <= 10; ++n) note(store, n);
    REQUIRE(store.journal().backup_to(folder / "copy").ok());
  }
  std::ofstream(folder / "text") << "no store at all";
  std::string bytes = bytes_of(folder / "copy");
  bytes[bytes.find("word007")] = 'W';
  std::ofstream(folder / "broken", std::ios::binary) << bytes;
  const std::size_t files = files_in(folder);
  const auto refused = [&](const char* file) {
    return storage::read_backup(folder / file, scratch).status();
  };
  CHECK(refused("none").code() == engine::Code::NotFound);
  CHECK(refused("text").code() == engine::Code::BadInput);
  CHECK(refused("broken").code() == engine::Code::Damaged);
  CHECK(refused("broken").message().find("taking-in") == std::string::npos);
  CHECK(files_in(folder) == files);
}

}  // namespace repair_test
