// Stores, checkpoints and bundles that earlier versions wrote (fixtures/README.md): they open, say
// what they said then, and go on.
#include <doctest/doctest.h>

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <iterator>
#include <sstream>

#include "storage/bundle/bundle_reader.h"
#include "storage/journal/events_jsonl.h"
#include "storage/store/checkpoint.h"
#include "storage/store/store.h"
#include "tests/support/journal_fixture.h"

namespace old_stores_test {

namespace fs = std::filesystem;

namespace {

const fs::path kFixtures = fs::path(DUSKWALK_TESTS) / "storage/fixtures";

std::string bytes_of(const fs::path& path) {
  std::ifstream file(path, std::ios::binary);
  return {std::istreambuf_iterator<char>(file), {}};
}

std::vector<fs::path> versions() {
  std::vector<fs::path> all;
  for (const auto& entry : fs::directory_iterator(kFixtures))
    if (entry.is_directory()) all.push_back(entry.path());
  std::sort(all.begin(), all.end());
  return all;
}

fs::path bundle_of(const fs::path& version) {
  for (const auto& entry : fs::directory_iterator(version))
    if (entry.is_directory()) return entry.path();
  return {};
}

// What the version's `state` file says of its store.
struct State {
  std::int64_t entries = 0;
  std::string hash;

  explicit State(const fs::path& version) {
    std::istringstream(bytes_of(version / "state")) >> entries >> hash;
  }
};

std::string hash_of(const storage::Store& store) {
  return fmt::format("{:016x}", engine::state_hash(store.farm()));
}

// A copy of the version's store, with what lies beside it.
struct Copy {
  fixture::Folder folder;
  std::string path = folder / "farm.journal";

  explicit Copy(const fs::path& version) {
    for (const char* beside : {"", ".tip", ".checkpoint"})
      if (const fs::path from = version / ("farm.journal" + std::string(beside)); fs::exists(from))
        fs::copy_file(from, path + beside);
  }
  [[nodiscard]] storage::Store open() const {
    storage::JournalOptions options = fixture::small();
    options.checkpoint_from = 1;
    auto store = storage::Store::open(path, options);
    REQUIRE_MESSAGE(store.ok(), store.status().message());
    REQUIRE_MESSAGE(store.value().damage().empty(), store.value().damage());
    return std::move(store).value();
  }
};

engine::Event note(const storage::Store& store) {
  engine::Stamp now = *engine::stamp_from_rfc3339("2026-09-01T19:00:00-07:00");
  return store.next(now, engine::NoteWritten{{}, {}, "a year on"});
}

}  // namespace

TEST_CASE("a store of every earlier version opens, replays to its state and goes on") {
  REQUIRE(versions().size() >= 2);
  for (const fs::path& version : versions()) {
    INFO(version.filename().string());
    const State want(version);
    const Copy copy(version);
    {
      storage::Store store = copy.open();
      CHECK(store.journal().size() == want.entries);
      CHECK(hash_of(store) == want.hash);
      CHECK(store.journal().verify().ok());
      REQUIRE(store.append(note(store)).ok());
    }
    const storage::Store again = copy.open();
    CHECK(again.journal().size() == want.entries + 1);
    CHECK(again.journal().verify().ok());
  }
}

TEST_CASE("the checkpoint of another version is made anew, never used") {
  int with_one = 0;
  for (const fs::path& version : versions()) {
    if (!fs::exists(version / "farm.journal.checkpoint")) continue;
    INFO(version.filename().string());
    const Copy copy(version);
    CHECK_FALSE(storage::read_checkpoint("", copy.path).has_value());
    CHECK(hash_of(copy.open()) == State(version).hash);
    CHECK(storage::read_checkpoint("", copy.path).has_value());
    CHECK(hash_of(copy.open()) == State(version).hash);
    ++with_one;
  }
  CHECK(with_one >= 1);
}

TEST_CASE("an entry of every earlier version is written again byte for byte") {
  for (const fs::path& version : versions()) {
    INFO(version.filename().string());
    const storage::Store store = Copy(version).open();
    CHECK(storage::events_jsonl(fixture::all_of(store.journal())) ==
          bytes_of(bundle_of(version) / "data/events.jsonl"));
  }
}

TEST_CASE("a bundle of every earlier version is whole and merges to the same state") {
  for (const fs::path& version : versions()) {
    INFO(version.filename().string());
    auto intake = storage::read_bundles({version.string()});
    REQUIRE(intake.ok());
    CHECK(intake.value().whole == 1);
    CHECK(intake.value().lines.empty());
    const fixture::Folder folder;
    auto store = storage::Store::open(folder / "new.journal", fixture::small(fixture::kOther));
    REQUIRE(store.ok());
    const auto merged = store.value().merge(std::move(intake.value().events));
    REQUIRE(merged.ok());
    CHECK(merged.value().added == State(version).entries);
    CHECK(merged.value().lines.empty());
    CHECK(hash_of(store.value()) == State(version).hash);
  }
}

}  // namespace old_stores_test
