#include "storage/store/merge_rules.h"

#include <doctest/doctest.h>

#include "storage/store/event_json.h"
#include "storage/store/store.h"
#include "tests/support/store_fixture.h"

namespace merge_rules_test {

using namespace fixture;

namespace {

std::vector<storage::Sealed> notes(std::int64_t last, const std::string& device) {
  std::vector<storage::Sealed> all;
  for (std::int64_t n = 1; n <= last; ++n)
    all.push_back(
        storage::seal(note_of(n, device), all.empty() ? storage::Hash{} : all.back().hash));
  return all;
}

}  // namespace

TEST_CASE("the last number before a gap is that of the run that begins at 1") {
  struct Row {
    std::string name, held;
    std::int64_t want;
  };
  const Row rows[] = {{"no gap", "1-7", 7}, {"a gap", "1-3,5", 3}, {"no beginning", "2-7", 0}};
  for (const Row& r : rows) {
    INFO(r.name);
    storage::KnownEvents held;
    REQUIRE(storage::parse_seqs(r.held, held[kOther].seqs));
    CHECK(storage::last_before_gap(held).at(kOther) == r.want);
    CHECK(storage::gap_lines(held, {}).empty() == (r.name == "no gap"));
  }
}

TEST_CASE("entries behind a gap are kept and held back from the farm until it closes") {
  const Folder folder;
  const auto all = notes(6, kOther);
  {
    storage::Store store = store_in(folder);
    const auto first = merged(store, {all[0], all[3], all[4], all[5]});
    CHECK(first.added == 4);
    REQUIRE(first.lines.size() == 1);
    CHECK(first.lines[0].find("entries 2-3 are missing; 3 after them wait") != std::string::npos);
    CHECK(store.farm().log.size() == 1);
  }
  storage::Store store = store_in(folder);  // opened again, it holds them back as well
  CHECK(store.farm().log.size() == 1);
  CHECK(merged(store, {all[2], all[1]}).lines.empty());
  CHECK(store.farm().log.size() == 6);
}

TEST_CASE(
    "entries under this tablet's id that are not here come in, and it goes on under another") {
  const Folder folder;
  const auto own = notes(4, kTablet);
  storage::Store store = store_in(folder);
  CHECK(merged(store, {own[0], own[1]}).added == 2);
  const std::string second = store.journal().device();
  CHECK(second != kTablet);
  CHECK(store.append(store.next({}, engine::NoteWritten{{}, {}, "on it goes"})).ok());
  // What it holds already says nothing about the id it has now.
  CHECK(merged(store, own).added == 2);
  CHECK(store.journal().device() == second);
  CHECK(store.farm().log.size() == 6);  // with the clock that its own entry follows
  CHECK(store.farm().branches.empty());
}

TEST_CASE("own entries behind a gap wait, and their numbers are never given again") {
  const Folder folder;
  const auto own = notes(4, kTablet);
  storage::Store store = store_in(folder);
  const auto behind = merged(store, {own[2], own[3]});
  CHECK(behind.added == 2);
  REQUIRE(behind.lines.size() == 2);
  CHECK(behind.lines[0].find("from now on it writes as tablet") != std::string::npos);
  CHECK(behind.lines[1].find("entries 1-2 are missing; 2 after them wait") != std::string::npos);
  CHECK(store.journal().device() != kTablet);
  CHECK(store.append(store.next({}, engine::NoteWritten{{}, {}, "on it goes"})).ok());
  CHECK(merged(store, own).added == 2);
  CHECK(store.farm().log.size() == 5);
  CHECK(store.farm().branches.empty());  // one chain, whatever came when
}

TEST_CASE("another entry under a number that is here is kept beside it, and said") {
  const Folder folder;
  const auto all = notes(3, kOther);
  storage::Store store = store_in(folder);
  CHECK(merged(store, all).added == 3);
  const storage::Sealed other = storage::seal(note_of(2, kOther, "wet"), all[0].hash);
  const auto fork = merged(store, {other});
  CHECK(fork.added == 1);
  REQUIRE(fork.lines.size() == 1);
  CHECK(fork.lines[0].find("1 entry from 2 on came in beside") != std::string::npos);
  CHECK(store.farm().log.size() == 4);
  CHECK(merged(store, {other}).known == 1);
  CHECK(store.journal().device() == kTablet);
}

TEST_CASE("entries of a later version and numbers beyond reason are left out, the rest is taken") {
  const Folder folder;
  storage::Store store = store_in(folder);
  storage::Record later = note_of(1, kThird), far = note_of(1, kThird);
  later.kind = "invented_later";
  far.seq = std::int64_t{1} << 62;
  auto events = notes(2, kOther);
  events.push_back(storage::seal(later, {}));
  events.push_back(storage::seal(far, {}));
  const auto done = merged(store, events);
  CHECK(done.added == 2);
  CHECK(done.lines.size() == 1);  // one line a device
  CHECK(done.lines[0].find("and 1 more") != std::string::npos);
}

TEST_CASE("U+0000 in a text and a day before 1900 do not come in, and the line names the field") {
  struct Row {
    std::string name;
    engine::Body body;
    std::string want;
  };
  engine::StockReceived lot;
  lot.product = "oxalic acid";
  lot.amount = engine::Mass{1000};
  lot.expiry = engine::Date{std::chrono::year{202}, std::chrono::month{6}, std::chrono::day{30}};
  engine::NoteWritten noted{{}, {}, std::string("the gate\0sticks", 15)};
  engine::EntryStruck corrected;
  corrected.entry = {engine::DeviceId{*engine::uuid_from_text(kOther)}, 1};
  corrected.reason = std::string("x\0", 2);
  const Row rows[] = {
      {"a text", noted, "text: holds the character U+0000"},
      {"a reason", corrected, "reason: holds the character U+0000"},
      {"a day", lot, "expiry: the year 0202 is before 1900"},
  };
  for (const Row& r : rows) {
    INFO(r.name);
    const Folder folder;
    storage::Store store = store_in(folder);
    const engine::DeviceId other{*engine::uuid_from_text(kOther)};
    const auto sealed = storage::seal(storage::to_record({{other, 1}, {}, r.body}), {});
    const auto done = merged(store, {sealed});
    CHECK(done.added == 0);
    REQUIRE(done.lines.size() == 1);
    CHECK_MESSAGE(done.lines[0].find(r.want) != std::string::npos, done.lines[0]);
    const auto own = store.append(store.next({}, r.body));
    CHECK(own.code() == engine::Code::BadInput);
    CHECK_MESSAGE(own.message().find(r.want) != std::string::npos, own.message());
    CHECK(store.journal().size() == 0);
  }
}

}  // namespace merge_rules_test
