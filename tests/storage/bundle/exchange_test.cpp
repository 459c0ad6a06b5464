#include "storage/bundle/exchange.h"

#include <doctest/doctest.h>

#include <filesystem>
#include <fstream>

#include "storage/bundle/bag.h"
#include "storage/bundle/bundle_reader.h"
#include "tests/support/journal_fixture.h"

namespace exchange_test {

namespace fs = std::filesystem;
using namespace fixture;

namespace {

storage::Store open(const std::string& path, const std::string& device) {
  auto store = storage::Store::open(path, small(device));
  REQUIRE_MESSAGE(store.ok(), store.status().message());
  return std::move(store).value();
}

void note(storage::Store& store, int n) {
  engine::Stamp s = *engine::stamp_from_rfc3339("2026-08-14T19:40:00-07:00");
  const engine::Stamp at = engine::after(s, engine::Seconds{n});
  REQUIRE(store.append(store.next(at, engine::NoteWritten{{}, {}, "note"})).ok());
}

storage::Exchanged pass(storage::Store& store, const std::string& folder) {
  auto done = storage::exchange(store, {folder, "2026-08-14"});
  REQUIRE_MESSAGE(done.ok(), done.status().message());
  return std::move(done).value();
}

bool waits(storage::Store& store, const std::string& folder) {
  const auto waits = storage::exchange_waits(store, folder);
  REQUIRE(waits.ok());
  return waits.value();
}

}  // namespace

TEST_CASE("two stores that share a folder come to the same state, and then rest") {
  const Folder folder;
  fs::create_directories(folder / "shared");
  storage::Store a = open(folder / "a.journal", kTablet), b = open(folder / "b.journal", kOther);
  for (int n = 0; n < 5; ++n) note(a, n);
  note(b, 100);
  CHECK(waits(a, folder / "shared"));
  CHECK(pass(a, folder / "shared").put.size() == 1);
  const auto in = pass(b, folder / "shared");
  CHECK(in.taken == 1);
  CHECK(in.entries == 5);
  CHECK(in.put.size() == 1);  // only its own: the others' lie there already
  CHECK(pass(a, folder / "shared").entries == 1);
  CHECK(engine::state_hash(a.farm()) == engine::state_hash(b.farm()));
  CHECK_FALSE(waits(a, folder / "shared"));
  CHECK_FALSE(waits(b, folder / "shared"));
  const auto idle = pass(a, folder / "shared");
  CHECK(idle.taken + idle.put.size() + idle.waiting.size() == 0);
  note(b, 200);
  CHECK(waits(b, folder / "shared"));
  CHECK_FALSE(waits(a, folder / "shared"));
}

TEST_CASE("a bundle that is half copied is left until it is whole") {
  const Folder folder;
  fs::create_directories(folder / "out");
  fs::create_directories(folder / "in");
  storage::Store a = open(folder / "a.journal", kTablet), b = open(folder / "b.journal", kOther);
  for (int n = 0; n < 40; ++n) note(a, n);
  const std::string name = pass(a, folder / "out").put.at(0);
  const fs::path from = fs::path(folder / "out") / name, to = fs::path(folder / "in") / name;
  fs::copy(from, to, fs::copy_options::recursive);
  const auto events = to / "data/events.jsonl";
  const auto size = fs::file_size(events);
  fs::permissions(events, fs::perms::owner_all);
  for (const auto part : {size / 3, size - 1}) {
    fs::resize_file(events, part);
    const auto done = pass(b, folder / "in");
    CHECK(done.taken == 0);
    CHECK(done.waiting == std::vector{name});
    CHECK(b.farm().log.empty());
  }
  fs::remove(events);
  CHECK(pass(b, folder / "in").waiting.size() == 1);
  fs::copy_file(from / "data/events.jsonl", events);
  CHECK(pass(b, folder / "in").entries == 40);
}

TEST_CASE("what was not whole is not read again until its files change") {
  const Folder folder;
  fs::create_directories(folder / "shared");
  storage::Store a = open(folder / "a.journal", kTablet), b = open(folder / "b.journal", kOther);
  for (int n = 0; n < 40; ++n) note(a, n);
  const std::string name = pass(a, folder / "shared").put.at(0);
  const fs::path events = fs::path(folder / "shared") / name / "data/events.jsonl";
  const fs::path aside = fs::path(folder / "events.jsonl");
  fs::rename(events, aside);
  CHECK(pass(b, folder / "shared").waiting == std::vector{name});
  CHECK_FALSE(waits(b, folder / "shared"));
  CHECK(pass(b, folder / "shared").waiting == std::vector{name});  // still said
  fs::rename(aside, events);
  CHECK(waits(b, folder / "shared"));
  CHECK(pass(b, folder / "shared").entries == 40);
  CHECK_FALSE(waits(b, folder / "shared"));
}

TEST_CASE("a bundle with a hole as large as a disk is refused unread") {
  const Folder folder;
  fs::create_directories(folder / "shared");
  storage::Store a = open(folder / "a.journal", kTablet), b = open(folder / "b.journal", kOther);
  note(a, 1);
  const std::string name = pass(a, folder / "shared").put.at(0);
  const std::string bundle = folder / ("shared/" + name);
  std::error_code none;
  fs::resize_file(bundle + "/data/events.jsonl", std::uintmax_t{8} << 30, none);
  if (none) {
    MESSAGE("SKIPPED: no holes in files here");
    return;
  }
  const auto report = storage::check_bag(bundle);
  REQUIRE(report.ok());
  CHECK(report.value().verdict().message().find("more than a bundle can") != std::string::npos);
  CHECK(pass(b, folder / "shared").waiting == std::vector{name});
  CHECK_FALSE(waits(b, folder / "shared"));
  const auto read = storage::read_bundles({folder / "shared"});
  REQUIRE(read.ok());
  CHECK(read.value().events.empty());
  REQUIRE(read.value().lines.size() == 2);
  CHECK(read.value().lines[1].find("too large") != std::string::npos);
}

TEST_CASE("a folder with an odd name breaks no notes") {
  const Folder folder;
  fs::create_directories(folder / "shared");
  storage::Store a = open(folder / "a.journal", kTablet), b = open(folder / "b.journal", kOther);
  note(a, 1);
  const std::string name = pass(a, folder / "shared").put.at(0);
  const fs::path bundle = fs::path(folder / "shared") / name;
  for (const std::string odd : {"\nside", "\x1b[31m", "\xff", "#", "."})
    fs::copy(bundle, bundle.string() + odd, fs::copy_options::recursive);
  CHECK(pass(b, folder / "shared").taken == 1);
  CHECK(pass(b, folder / "shared").taken == 0);
  CHECK_FALSE(waits(b, folder / "shared"));
}

TEST_CASE("what is under way or no bundle is passed by; a lost bundle or note costs nothing") {
  const Folder folder;
  const std::string shared = folder / "shared";
  fs::create_directories(shared + "/.part-duskwalk-2026-08-14-a-b/data");
  fs::create_directories(shared + "/photos");
  std::ofstream(shared + "/duskwalk-notes.txt") << "not a folder";
  storage::Store a = open(folder / "a.journal", kTablet);
  note(a, 1);
  const auto first = pass(a, shared);
  CHECK(first.waiting.empty());
  fs::remove_all(shared + "/" + first.put.at(0));
  CHECK(waits(a, shared));
  CHECK(pass(a, shared).put == first.put);  // the same content has the same name
  fs::remove(folder / "a.journal.exchange");
  const auto again = pass(a, shared);
  CHECK(again.taken == 1);
  CHECK(again.entries == 0);
  CHECK(again.put.empty());
}

TEST_CASE("a folder that is not there is named, and nothing changes") {
  const Folder folder;
  storage::Store a = open(folder / "a.journal", kTablet);
  note(a, 1);
  CHECK(storage::exchange(a, {folder / "none", "2026-08-14"}).status().code() ==
        engine::Code::NotFound);
  CHECK(storage::exchange_waits(a, folder / "none").status().code() == engine::Code::NotFound);
  CHECK_FALSE(fs::exists(folder / "a.journal.exchange"));
}

}  // namespace exchange_test
