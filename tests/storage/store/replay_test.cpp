// What a journal holds is replayed whatever it is: an entry that cannot be, one that this version
// cannot read and one that the engine cannot work out never lock the store.
#include "storage/store/replay.h"

#include <doctest/doctest.h>

#include "engine/words/contradictions.h"
#include "storage/journal/journal_testing.h"
#include "storage/store/event_json.h"
#include "storage/store/repair.h"
#include "storage/store/store.h"
#include "tests/support/journal_fixture.h"

namespace replay_test {

using namespace fixture;
using engine::Code;

namespace {

engine::DeviceId id_of(const std::string& device) { return {*engine::uuid_from_text(device)}; }

template <class Id>
Id number(unsigned char n) {
  Id id;
  id.bytes[15] = n;
  return id;
}

engine::Stamp at(int minute) {
  engine::Stamp s;
  s.at = engine::Utc{engine::Ms{1'786'000'000'000 + minute * std::int64_t{60'000}}};
  return s;
}

storage::Store open(const std::string& path, const storage::JournalOptions& options = small()) {
  auto store = storage::Store::open(path, options);
  REQUIRE_MESSAGE(store.ok(), store.status().message());
  return std::move(store).value();
}

engine::Status add(storage::Store& store, int minute, engine::Body body) {
  return store.append(store.next(at(minute), std::move(body)));
}

engine::Body note(const std::string& text) { return engine::NoteWritten{{}, {}, text}; }

// Written past the store, as an earlier version did with what another tablet sent.
void journal_only(const std::string& path, const std::vector<engine::Body>& bodies) {
  storage::Store store = open(path);
  for (const engine::Event& e : store.next_all(at(0), bodies))
    REQUIRE(store.journal().append(storage::to_record(e)).ok());
}

engine::Body colony(unsigned char n, unsigned char yard) {
  return engine::ColonyAdded{number<engine::ColonyId>(n), number<engine::YardId>(yard),
                             "C" + std::to_string(n), 1, false};
}

engine::Body yard(unsigned char n) {
  return engine::YardAdded{number<engine::YardId>(n), "Y" + std::to_string(n), {}, "", ""};
}

// Whoever folds the note "trip" falls.
storage::GuardedFold::Before tripping() {
  return [](const engine::Event& e) {
    const auto* n = std::get_if<engine::NoteWritten>(&e.body);
    if (n != nullptr && n->text == "trip") throw std::out_of_range("tripped");
  };
}

}  // namespace

TEST_CASE("entries that cannot be fall and are named, and the store goes on") {
  const Folder folder;
  const std::string path = folder / "farm.journal";
  journal_only(path, {colony(3, 9), yard(1), colony(4, 9), colony(5, 1)});
  std::uint64_t shown = 0;
  {
    storage::Store store = open(path);
    CHECK_MESSAGE(store.damage().empty(), store.damage());
    CHECK(store.writable().ok());
    CHECK(store.farm().colonies.size() == 1);
    const auto found = engine::contradictions(store.farm());
    REQUIRE(found.size() == 2);
    for (const engine::Contradicted& c : found)
      CHECK(engine::words(c, store.farm()).find("oes not fit") != std::string::npos);
    REQUIRE(add(store, 5, yard(7)).ok());
    shown = engine::state_hash(store.farm());
  }
  const storage::Store again = open(path);
  CHECK(engine::state_hash(again.farm()) == shown);
  CHECK(again.journal().verify().ok());
}

TEST_CASE("an entry at which the fold ends is left out and named, all others are shown") {
  const Folder folder;
  const std::string path = folder / "farm.journal";
  journal_only(path, {yard(1), note("before"), note("trip"), colony(5, 1), note("after")});
  storage::JournalTesting testing;
  testing.before_folding = tripping();
  storage::JournalOptions options = small();
  options.testing = &testing;
  {
    storage::Store store = open(path, options);
    CHECK(store.writable().ok());
    CHECK(store.farm().log.size() == 4);
    CHECK(store.farm().colonies.size() == 1);
    CHECK(store.unshown().find("entry 3") != std::string::npos);
    CHECK(store.unshown().find("tripped") != std::string::npos);
    REQUIRE(add(store, 5, note("goes on")).ok());
    CHECK(store.journal().size() == 6);
    // One that cannot be worked out is refused before it is durable.
    const engine::Status refused = add(store, 6, note("trip"));
    CHECK(refused.code() == Code::Failed);
    CHECK(store.journal().size() == 6);
    CHECK(store.farm().log.size() == 5);
    REQUIRE(add(store, 7, note("still here")).ok());
  }
  // The mistake was mended: nothing is lost.
  const storage::Store mended = open(path);
  CHECK(mended.farm().log.size() == 7);
  CHECK(mended.unshown().empty());
}

TEST_CASE("such an entry from another tablet is kept, named and left out too") {
  const Folder folder;
  journal_only(folder / "other.journal", {yard(1), note("trip"), colony(5, 1)});
  auto events = all_of(open(folder / "other.journal").journal());
  storage::JournalTesting testing;
  testing.before_folding = tripping();
  storage::JournalOptions options = small(kOther);
  options.testing = &testing;
  storage::Store store = open(folder / "farm.journal", options);
  REQUIRE(add(store, 1, yard(8)).ok());
  for (int n = 0; n < 9; ++n) REQUIRE(add(store, 2 + n, note("here")).ok());
  const auto merged = store.merge(events);
  REQUIRE_MESSAGE(merged.ok(), merged.status().message());
  CHECK(merged.value().added == 3);
  REQUIRE(merged.value().lines.size() == 1);
  CHECK(merged.value().lines[0].find("entry 2") != std::string::npos);
  CHECK(store.farm().colonies.size() == 1);
  CHECK(store.farm().log.size() == 12);
  REQUIRE(add(store, 20, note("goes on")).ok());
}

TEST_CASE("very many of them are left out together") {
  const Folder folder;
  std::vector<engine::Body> bodies = {yard(1)};
  for (int n = 0; n < 50; ++n) bodies.push_back(note("trip"));
  journal_only(folder / "farm.journal", bodies);
  storage::JournalTesting testing;
  testing.before_folding = tripping();
  storage::JournalOptions options = small();
  options.testing = &testing;
  storage::Store store = open(folder / "farm.journal", options);
  CHECK(store.farm().log.size() == 1);
  CHECK(store.unshown().find("50 entries are kept but not shown") != std::string::npos);
  REQUIRE(add(store, 9, note("goes on")).ok());
}

TEST_CASE("own entries of a later version lock the store until it goes on without them") {
  const Folder folder;
  const std::string path = folder / "farm.journal";
  {
    storage::Store store = open(path);
    REQUIRE(add(store, 0, yard(1)).ok());
    auto record = storage::to_record(store.next(at(1), note("x")));
    record.kind = "bees_counted";
    REQUIRE(store.journal().append(record).ok());
  }
  storage::Store store = open(path);
  CHECK(store.writable().code() == Code::TooNew);
  CHECK(store.damage().find("bees_counted") != std::string::npos);
  CHECK(store.farm().yards.size() == 1);
  CHECK(add(store, 5, note("no")).code() == Code::TooNew);
  const auto mended = storage::mend(store, "newer", kOther);
  REQUIRE_MESSAGE(mended.ok(), mended.status().message());
  CHECK(store.writable().ok());
  CHECK(store.journal().size() == 2);  // the later version's entry too
  CHECK(store.unshown().find("bees_counted") != std::string::npos);
  REQUIRE(add(store, 6, colony(5, 1)).ok());
}

// Rounds are planned and walked, one colony is not reached; the plan and that colony are struck.
TEST_CASE("two strikes after a walk with a colony that was not reached leave a store that opens") {
  const Folder folder;
  const std::string path = folder / "farm.journal";
  const auto walk_id = number<engine::WalkId>(1);
  {
    storage::Store store = open(path);
    engine::CoursesPlanned plan;
    plan.courses = {
        {number<engine::CourseId>(1), number<engine::YardId>(1), {engine::local_date(at(0))}}};
    engine::WalkOpened walk;
    walk.walk = walk_id;
    walk.yard = number<engine::YardId>(1);
    walk.course = number<engine::CourseId>(1);
    walk.colonies = {number<engine::ColonyId>(1), number<engine::ColonyId>(2)};
    walk.vaporizers = {number<engine::KitId>(1)};
    walk.rules.product = "oxalic acid";
    walk.rules.per_brood_box = {1000};
    const std::vector<engine::Body> all = {
        yard(1),
        colony(1, 1),
        colony(2, 1),
        engine::KitAdded{number<engine::KitId>(1), engine::KitSort::Vaporizer, "1"},
        plan,
        walk,
        engine::WalkClosed{walk_id}};
    for (std::size_t i = 0; i < all.size(); ++i) {
      const engine::Status saved = add(store, static_cast<int>(i), all[i]);
      REQUIRE_MESSAGE(saved.ok(), saved.message());
    }
    // Refused with a reason, or taken: never an exception.
    (void)add(store, 20, engine::EntryStruck{{id_of(kTablet), 5}, "not planned"});
    (void)add(store, 21, engine::EntryStruck{{id_of(kTablet), 3}, "not there"});
    REQUIRE(add(store, 22, note("goes on")).ok());
    // Durable before it was worked out, as an earlier version wrote it.
    const auto again = store.next(at(23), engine::EntryStruck{{id_of(kTablet), 3}, "not there"});
    REQUIRE(store.journal().append(storage::to_record(again)).ok());
  }
  storage::Store store = open(path);
  CHECK(store.farm().log.size() >= 9);
  CHECK(store.writable().ok());
  REQUIRE(add(store, 30, note("and on")).ok());
  storage::Store other = open(folder / "other.journal", small(kOther));
  CHECK(other.merge(all_of(store.journal())).ok());
  REQUIRE(add(other, 31, note("here too")).ok());
}

}  // namespace replay_test
