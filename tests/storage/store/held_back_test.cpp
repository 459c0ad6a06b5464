// Whose entries count in a store: pairing, signatures, refusals, and what is kept and held back.
#include <doctest/doctest.h>

#include "storage/journal/backup.h"
#include "storage/store/event_json.h"
#include "storage/store/store.h"
#include "tests/support/journal_fixture.h"

namespace held_back_test {

using namespace fixture;
using storage::HeldWhy;
using storage::Store;

namespace {

engine::Stamp at(int second) {
  return engine::after(*engine::stamp_from_rfc3339("2026-08-14T19:40:00-07:00"),
                       engine::Seconds{second});
}

Store open(const std::string& path, const std::string& device) {
  auto store = Store::open(path, small(device));
  REQUIRE_MESSAGE(store.ok(), store.status().message());
  return std::move(store).value();
}

void says(Store& store, int second, engine::Body body) {
  const auto saved = store.append(store.next(at(second), std::move(body)));
  REQUIRE_MESSAGE(saved.ok(), saved.message());
}

void note(Store& store, int second) { says(store, second, engine::NoteWritten{{}, {}, "note"}); }

storage::Merged give(const Store& from, Store& to, bool with_signatures = true) {
  const auto events = all_of(from.journal());
  auto signatures = from.signatures_for(events);
  if (!with_signatures) signatures.clear();
  auto done = to.merge(events, {}, signatures);
  REQUIRE_MESSAGE(done.ok(), done.status().message());
  return std::move(done).value();
}

std::size_t notes_of(const Store& store, const std::string& device) {
  std::size_t all = 0;
  store.farm().log.scan(0, [&](std::size_t, const engine::Entry& e) {
    all += engine::text(e.event.ref.device) == device &&
           std::holds_alternative<engine::NoteWritten>(e.event.body);
  });
  return all;
}

std::string key_of(Store& store) {
  const auto key = store.make_key(at(0));
  REQUIRE(key.ok());
  return storage::hex(key.value().public_key());
}

}  // namespace

TEST_CASE("an outfit that never paired takes in everything, with keys and without") {
  const Folder folder;
  Store a = open(folder / "a", kTablet), b = open(folder / "b", kOther);
  note(b, 1);
  CHECK(give(b, a).held.empty());
  (void)key_of(b);
  note(b, 2);
  CHECK(give(b, a, false).held.empty());
  CHECK(notes_of(a, kOther) == 2);
}

TEST_CASE(
    "a stranger's entries are kept and held back, across a restart, until they are taken in") {
  const Folder folder;
  Store b = open(folder / "b", kOther);
  note(b, 1);
  note(b, 2);
  {
    Store a = open(folder / "a", kTablet);
    says(a, 0, a.trust_in({}));
    const auto merged = give(b, a);
    CHECK(merged.added == 2);
    REQUIRE(merged.held.size() == 1);
    CHECK(merged.held[0].tablet == kOther);
    CHECK(merged.held[0].entries == 2);
    CHECK(merged.held[0].why == HeldWhy::NotPaired);
    CHECK(notes_of(a, kOther) == 0);
    CHECK(a.verify().ok());
  }
  Store a = open(folder / "a", kTablet);
  CHECK(notes_of(a, kOther) == 0);
  REQUIRE(a.counting().held_back().size() == 1);
  note(b, 3);
  CHECK(give(b, a).held[0].entries == 3);
  says(a, 10, engine::TabletTrusted{{}, kOther, 2, {}});
  CHECK(notes_of(a, kOther) == 2);
  CHECK(a.counting().held_back()[0].from == 3);
  CHECK(a.verify().ok());
}

TEST_CASE("a paired tablet counts as far as its signatures reach, by key and by words") {
  for (const bool by_words : {false, true}) {
    const Folder folder;
    Store a = open(folder / "a", kTablet), b = open(folder / "b", kOther);
    std::string key = key_of(b);
    storage::PublicKey bytes{};
    REQUIRE(storage::from_hex(key, bytes));
    if (by_words) key = storage::to_text(storage::fingerprint(bytes));
    says(a, 0, a.trust_in(key));
    note(b, 1);
    const auto unsigned_ones = give(b, a, false);
    REQUIRE(unsigned_ones.held.size() == 1);
    CHECK(unsigned_ones.held[0].why == HeldWhy::NotSigned);
    CHECK(notes_of(a, kOther) == 0);
    CHECK(give(b, a).held.empty());  // the same entries, and this time the signature
    CHECK(notes_of(a, kOther) == 1);
    note(b, 2);
    CHECK(give(b, a, false).held[0].from == 3);
    CHECK(notes_of(a, kOther) == 1);
    CHECK(a.verify().ok());
    a = open(folder / "none", kThird);  // closes it
    a = open(folder / "a", kTablet);
    CHECK(notes_of(a, kOther) == 1);
    CHECK(give(b, a).held.empty());
    CHECK(notes_of(a, kOther) == 2);
  }
}

TEST_CASE("whoever holds a bundle cannot write as a paired tablet") {
  const Folder folder;
  Store a = open(folder / "a", kTablet), b = open(folder / "b", kOther);
  says(a, 0, a.trust_in(key_of(b)));
  note(b, 1);
  CHECK(give(b, a).held.empty());
  // Somebody continues its chain, and signs with a key of its own that the chain names.
  const auto last = all_of(b.journal()).back();
  const storage::TabletKey own = storage::TabletKey::from_seed(storage::sha256("mallory"));
  const engine::DeviceId id = b.device();
  const auto keyed = storage::seal(
      storage::to_record(
          {{id, last.record.seq + 1}, at(5), engine::TabletKeyed{storage::hex(own.public_key())}}),
      last.hash);
  const auto forged = storage::seal(
      storage::to_record({{id, last.record.seq + 2}, at(6), engine::NoteWritten{{}, {}, "forged"}}),
      keyed.hash);
  const auto merged =
      a.merge({keyed, forged}, {}, {storage::sign(own, {kOther, forged.record.seq, forged.hash})});
  REQUIRE(merged.ok());
  REQUIRE(merged.value().held.size() == 1);
  CHECK(merged.value().held[0].why == HeldWhy::NotSigned);
  CHECK(notes_of(a, kOther) == 1);
  // The true one goes on: its side of the fork counts, the forged one stays out.
  note(b, 7);
  note(b, 8);
  const auto true_ones = give(b, a);
  CHECK(notes_of(a, kOther) + 0 >= 1);
  std::size_t forged_shown = 0, all = 0;
  a.farm().log.scan(0, [&](std::size_t, const engine::Entry& e) {
    if (const auto* n = std::get_if<engine::NoteWritten>(&e.event.body))
      ++all, forged_shown += n->text == "forged";
  });
  CHECK(forged_shown == 0);
  CHECK(all == 3);
  CHECK(a.verify().ok());
}

TEST_CASE("tablets whose entries were here count on; what they say a key for must be signed") {
  const Folder folder;
  Store a = open(folder / "a", kTablet), b = open(folder / "b", kOther),
        c = open(folder / "c", kThird);
  note(b, 1);
  CHECK(give(b, a).held.empty());
  says(a, 2, a.trust_in({}));
  note(b, 3);
  CHECK(give(b, a).held.empty());  // of an earlier version: unsigned, and counts
  CHECK(a.counting().unsigned_entries() == 2);
  note(c, 4);
  CHECK(give(c, a).held.size() == 1);
  (void)key_of(b);
  note(b, 5);
  CHECK(give(b, a, false).held.size() == 2);
  CHECK(notes_of(a, kOther) == 2);
  CHECK(give(b, a).held.size() == 1);
  CHECK(notes_of(a, kOther) == 3);
  CHECK(a.verify().ok());
}

TEST_CASE("a refusal undoes a flood from a number on, and taking in undoes the refusal") {
  const Folder folder;
  Store a = open(folder / "a", kTablet), b = open(folder / "b", kOther);
  for (int n = 1; n <= 40; ++n) note(b, n);
  CHECK(give(b, a).held.empty());
  says(a, 50, engine::TabletRefused{kOther, 11, {}});
  CHECK(notes_of(a, kOther) == 10);
  REQUIRE(a.counting().held_back().size() == 1);
  CHECK(a.counting().held_back()[0].entries == 30);
  CHECK(a.counting().held_back()[0].why == HeldWhy::Refused);
  note(b, 60);
  CHECK(give(b, a).held[0].entries == 31);
  CHECK(notes_of(a, kOther) == 10);
  CHECK(a.verify().ok());
  says(a, 70, engine::TabletTrusted{{}, kOther, 41, {}});
  CHECK(notes_of(a, kOther) == 41);
}

TEST_CASE("what another tablet decided about trust decides nothing here") {
  const Folder folder;
  Store a = open(folder / "a", kTablet), b = open(folder / "b", kOther),
        c = open(folder / "c", kThird);
  note(c, 1);
  CHECK(give(c, a).held.empty());
  says(b, 2, engine::TabletRefused{kThird, 1, {}});
  says(b, 3, b.trust_in({}));
  CHECK(give(b, a).held.empty());
  CHECK(notes_of(a, kThird) == 1);
  CHECK_FALSE(a.counting().closed());
}

TEST_CASE("a backup that is put back keeps whom it trusts, and what it wrote before counts") {
  const Folder folder;
  {
    Store a = open(folder / "a", kTablet), b = open(folder / "b", kOther);
    says(a, 0, a.trust_in(key_of(b)));
    note(a, 1);
    note(b, 1);
    CHECK(give(b, a).held.empty());
    REQUIRE(a.journal().backup_to(folder / "copy").ok());
  }
  CHECK_FALSE(storage::TabletKey::read(folder / "copy").ok());  // the key is in no backup
  const std::string fresh = "01930000-2222-7abc-9def-665544332211";
  const auto restored = storage::restore_backup(folder / "copy", folder / "again", fresh);
  REQUIRE_MESSAGE(restored.ok(), restored.status().message());
  Store again = open(folder / "again", fresh);
  CHECK(again.counting().closed());
  CHECK(notes_of(again, kTablet) == 1);
  CHECK(notes_of(again, kOther) == 1);
  CHECK(again.counting().held_back().empty());
  Store stranger = open(folder / "s", kThird);
  note(stranger, 2);
  CHECK(give(stranger, again).held.size() == 1);
}

TEST_CASE("a third tablet gets the signatures passed on, and believes nobody else's word") {
  const Folder folder;
  Store a = open(folder / "a", kTablet), b = open(folder / "b", kOther),
        c = open(folder / "c", kThird);
  const std::string key_b = key_of(b), key_c = key_of(c);
  says(a, 0, a.trust_in(key_b));
  says(a, 0, a.trust_in(key_c));
  note(c, 1);
  CHECK(give(c, b).held.empty());  // b never paired
  note(b, 2);
  CHECK(give(b, a).held.empty());
  CHECK(notes_of(a, kThird) == 1);
  CHECK(notes_of(a, kOther) == 1);
}

}  // namespace held_back_test
