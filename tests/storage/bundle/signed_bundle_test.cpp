// A bundle's signatures: written, checked on the way in, and missing where an earlier version
// wrote.
#include <doctest/doctest.h>

#include <filesystem>

#include "storage/bundle/bag.h"
#include "storage/bundle/bundle_reader.h"
#include "storage/bundle/bundle_signatures.h"
#include "storage/bundle/exchange.h"
#include "storage/journal/events_jsonl.h"
#include "tests/support/store_fixture.h"

namespace signed_bundle_test {

namespace fs = std::filesystem;
using namespace fixture;

namespace {

engine::Stamp now() { return *engine::stamp_from_rfc3339("2026-08-14T19:40:00-07:00"); }

storage::Store open(const std::string& path, const std::string& device) {
  auto store = storage::Store::open(path, small(device));
  REQUIRE_MESSAGE(store.ok(), store.status().message());
  return std::move(store).value();
}

void note(storage::Store& store) {
  REQUIRE(store.append(store.next(now(), engine::NoteWritten{{}, {}, "note"})).ok());
}

storage::Intake read(const std::string& folder) {
  auto intake = storage::read_bundles({folder});
  REQUIRE(intake.ok());
  return std::move(intake).value();
}

std::vector<storage::Signature> signed_by(const storage::TabletKey& key,
                                          const std::vector<storage::Sealed>& events) {
  const storage::Sealed& last = events.back();
  return {storage::sign(key, {last.record.device, last.record.seq, last.hash})};
}

}  // namespace

TEST_CASE("a tablet with a key signs the last of its entries in what it puts out") {
  const Folder folder;
  fs::create_directories(folder / "shared");
  storage::Store a = open(folder / "a", kTablet), b = open(folder / "b", kOther);
  const auto key = b.make_key(now());
  REQUIRE(key.ok());
  note(b);
  REQUIRE(storage::exchange(b, {folder / "shared", "2026-08-14"}).ok());
  const auto intake = read(folder / "shared");
  REQUIRE(intake.signatures.size() == 1);
  CHECK(intake.lines.empty());
  CHECK(intake.signatures[0].entry.seq == 2);
  CHECK(intake.signatures[0].key == key.value().public_key());
  REQUIRE(a.append(a.next(now(), a.trust_in(storage::hex(key.value().public_key())))).ok());
  REQUIRE(storage::exchange(a, {folder / "shared", "2026-08-14"}).ok());
  CHECK(a.counting().held_back().empty());
  // It passes the signature on with the entries.
  const auto passed_on = a.signatures_for(all_of(a.journal()));
  CHECK(passed_on == intake.signatures);
}

TEST_CASE("a bundle without signatures is whole and brings its entries") {
  const Folder folder;
  storage::Store b = open(folder / "b", kOther);
  note(b);
  bundle_in(folder / "stick", all_of(b.journal()), "");
  const auto intake = read(folder / "stick");
  CHECK(intake.whole == 1);
  CHECK(intake.lines.empty());
  CHECK(intake.events.size() == 1);
  CHECK(intake.signatures.empty());
}

TEST_CASE("a bad signature is named in one line, and the entries of its tablet are left out") {
  const Folder folder;
  storage::Store b = open(folder / "b", kOther), c = open(folder / "c", kThird);
  const storage::TabletKey key = storage::TabletKey::from_seed(storage::sha256("b"));
  for (int n = 0; n < 3; ++n) note(b), note(c);
  auto events = all_of(b.journal());
  const auto good = signed_by(key, events);
  const auto of_c = all_of(c.journal());
  events.insert(events.end(), of_c.begin(), of_c.end());
  auto other_bytes = good, other_entry = good;
  other_bytes[0].bytes[0] ^= 1U;
  other_entry = signed_by(key, {storage::seal(record(9, kOther), {})});
  struct Row {
    std::string name, text;
    std::size_t entries, signatures, lines;
  };
  const Row rows[] = {
      {"it holds", storage::signatures_text(good), 6, 1, 0},
      {"one bit of it is another", storage::signatures_text(other_bytes), 3, 0, 1},
      {"of an entry that is not here", storage::signatures_text(other_entry), 3, 0, 1},
      {"no signatures at all", "what is this", 6, 0, 1},
  };
  for (const Row& r : rows) {
    INFO(r.name);
    bundle_in(folder / r.name, events, r.text);
    const auto intake = read(folder / r.name);
    CHECK(intake.events.size() == r.entries);
    CHECK(intake.signatures.size() == r.signatures);
    REQUIRE(intake.lines.size() == r.lines);
    if (r.entries == 3)
      CHECK(intake.lines[0].find("a signature of tablet 22334455") != std::string::npos);
    // The exchange folder does the same.
    storage::Store a = open(folder / ("a " + r.name), kTablet);
    const auto done = storage::exchange(a, {folder / r.name, "2026-08-14"});
    REQUIRE(done.ok());
    CHECK(done.value().entries == static_cast<std::int64_t>(r.entries));
    CHECK(done.value().lines.size() == r.lines);
  }
}

}  // namespace signed_bundle_test
