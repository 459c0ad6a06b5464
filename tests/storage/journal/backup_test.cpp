#include "storage/journal/backup.h"

#include <doctest/doctest.h>

#include <filesystem>
#include <fstream>

#include "tests/support/bag_fixture.h"
#include "tests/support/journal_fixture.h"

namespace backup_test {

namespace fs = std::filesystem;
using namespace fixture;

namespace {

storage::Journal open(const std::string& path, const std::string& device = kTablet) {
  auto journal = storage::Journal::open(path, small(device));
  REQUIRE_MESSAGE(journal.ok(), journal.status().message());
  return std::move(journal).value();
}

void add(storage::Journal& journal, std::int64_t from, std::int64_t to) {
  for (const storage::Record& r : records(from, to)) REQUIRE(journal.append(r).ok());
}

}  // namespace

TEST_CASE("what is entered while the copy runs is in it, and the copy is whole") {
  const Folder folder;
  storage::Journal journal = open(folder / "farm.journal");
  add(journal, 1, 400);
  auto backup = storage::Backup::begin(journal, folder / "copy");
  REQUIRE_MESSAGE(backup.ok(), backup.status().message());
  std::int64_t last = 400;
  int steps = 0;
  for (bool done = false; !done; ++steps) {
    const auto stepped = backup.value().step(3);
    REQUIRE_MESSAGE(stepped.ok(), stepped.status().message());
    done = stepped.value();
    if (!done && steps % 4 == 0) add(journal, last + 1, last + 1), ++last;
    CHECK_FALSE((fs::exists(folder / "copy") && !done));
  }
  CHECK(steps > 10);
  CHECK(backup.value().part() == 1);
  const storage::Journal copy = open(folder / "copy");
  CHECK(copy.size() == last);
  CHECK(all_of(copy) == all_of(journal));
}

TEST_CASE("a copy made between entries, runs of entries and merges is whole and restores") {
  const Folder folder;
  storage::Journal journal = open(folder / "farm.journal");
  add(journal, 1, 300);
  storage::Journal beside = open(folder / "beside.journal", kOther);
  for (const storage::Record& r : records(1, 40, kOther)) REQUIRE(beside.append(r).ok());
  const std::vector<storage::Sealed> of_others = all_of(beside);
  auto backup = storage::Backup::begin(journal, folder / "copy");
  REQUIRE(backup.ok());
  for (int step = 0;; ++step) {
    const auto stepped = backup.value().step(2);
    REQUIRE_MESSAGE(stepped.ok(), stepped.status().message());
    if (stepped.value()) break;
    const std::int64_t last = journal.last(kTablet).seq;
    if (step == 3) REQUIRE(journal.append_all(records(last + 1, last + 50)).ok());
    if (step == 9) REQUIRE(journal.adopt_all(of_others).ok());
    if (step % 5 == 0 && step < 60) add(journal, last + 1, last + 1);
  }
  REQUIRE(journal.held().at(kOther).seqs.count() == 40);
  REQUIRE(journal.last(kTablet).seq > 350);
  {
    const storage::Journal copy = open(folder / "copy");
    CHECK_FALSE(copy.damage());
    CHECK(copy.verify().ok());
    CHECK(all_of(copy) == all_of(journal));
  }
  const auto restored = storage::restore_backup(folder / "copy", folder / "new.journal", kThird);
  REQUIRE_MESSAGE(restored.ok(), restored.status().message());
  CHECK(restored.value().events == journal.size());
  storage::Journal anew = open(folder / "new.journal");
  CHECK(anew.verify().ok());
  CHECK(all_of(anew) == all_of(journal));
  CHECK(anew.append(record(1, kThird)).ok());
}

TEST_CASE("a disk that runs full under a copy costs the copy, not the store") {
  const bags::SmallMedium medium("size=64k");
  if (!medium.mounted()) {
    MESSAGE("not run: this machine lets nobody mount");
    return;
  }
  const Folder folder;
  storage::Journal journal = open(folder / "farm.journal");
  add(journal, 1, 300);
  auto backup = storage::Backup::begin(journal, medium.path() + "/copy");
  REQUIRE(backup.ok());
  storage::Result<bool> stepped = false;
  for (std::int64_t n = 301; stepped.ok() && !stepped.value(); ++n) {
    add(journal, n, n);
    stepped = backup.value().step(4);
  }
  CHECK(stepped.status().code() == engine::Code::Full);
  CHECK(stepped.status().message().find("/copy: ") != std::string::npos);
  CHECK_FALSE(backup.value().step(4).ok());
  CHECK(bags::names_in(medium.path()).empty());
  CHECK(journal.verify().ok());
  add(journal, journal.size() + 1, journal.size() + 1);
}

TEST_CASE("a copy that is given up leaves nothing, and none goes over a file that is there") {
  const Folder folder;
  storage::Journal journal = open(folder / "farm.journal");
  add(journal, 1, 100);
  {
    auto backup = storage::Backup::begin(journal, folder / "copy");
    REQUIRE(backup.ok());
    REQUIRE(backup.value().step(1).ok());
  }
  CHECK_FALSE(fs::exists(folder / "copy"));
  CHECK_FALSE(fs::exists(folder / "copy.part"));
  std::ofstream(folder / "copy") << "mine";
  CHECK(storage::Backup::begin(journal, folder / "copy").status().code() == engine::Code::BadInput);
  CHECK(fs::file_size(folder / "copy") == 4);
  CHECK(journal.append(record(101)).ok());
}

TEST_CASE("a restored store has a new id and goes on with numbers of its own") {
  const Folder folder;
  {
    storage::Journal journal = open(folder / "farm.journal");
    add(journal, 1, 50);
    REQUIRE(journal.backup_to(folder / "copy").ok());
    add(journal, 51, 60);
  }
  const auto restored =
      storage::restore_backup(folder / "copy", folder / "new/farm.journal", kOther);
  REQUIRE_MESSAGE(restored.ok(), restored.status().message());
  CHECK(restored.value().events == 50);
  storage::Journal journal = open(folder / "new/farm.journal");
  CHECK(journal.device() == kOther);
  CHECK(journal.append(record(1, kOther)).ok());
  // The old tablet's later entries come in beside its own, with no fork.
  const auto adopted = journal.adopt_all(all_of(open(folder / "farm.journal")));
  REQUIRE(adopted.ok());
  CHECK(adopted.value().added == 10);
  CHECK(adopted.value().forks.empty());
}

TEST_CASE("what cannot be restored leaves no store behind") {
  const Folder folder;
  {
    storage::Journal journal = open(folder / "farm.journal");
    add(journal, 1, 50);
    REQUIRE(journal.backup_to(folder / "copy").ok());
  }
  const auto refused = [&](const std::string& file, const std::string& to, const std::string& id) {
    return storage::restore_backup(file, to, id).status().code();
  };
  CHECK(refused(folder / "copy", folder / "farm.journal", kOther) == engine::Code::BadInput);
  CHECK(refused(folder / "none", folder / "new", kOther) == engine::Code::NotFound);
  CHECK(refused(folder / "copy", folder / "new", kTablet) == engine::Code::BadInput);  // used here
  std::ofstream(folder / "text") << "no store at all";
  CHECK(refused(folder / "text", folder / "new", kOther) == engine::Code::BadInput);
  std::fstream broken(folder / "copy", std::ios::in | std::ios::out | std::ios::binary);
  broken.seekp(20000);
  broken << "####";
  broken.close();
  CHECK(refused(folder / "copy", folder / "new", kOther) == engine::Code::Damaged);
  for (const auto& entry : fs::directory_iterator(folder / "."))
    CHECK(entry.path().filename().string().find("new") == std::string::npos);
}

}  // namespace backup_test
