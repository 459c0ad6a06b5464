// A large store notes where its entries about keys stand, and believes the note no further than it
// fits.
#include "storage/store/key_entries.h"

#include <doctest/doctest.h>

#include <set>

#include "storage/store/store.h"
#include "tests/support/journal_fixture.h"

namespace key_entries_test {

using namespace fixture;
using storage::Store;

namespace {

Store open(const Folder& folder, std::int64_t checkpoint_from = 0) {
  storage::JournalOptions options = small(kTablet);
  options.checkpoint_from = checkpoint_from;
  auto store = Store::open(folder / "a", options);
  REQUIRE_MESSAGE(store.ok(), store.status().message());
  return std::move(store).value();
}

void says(Store& store, engine::Body body) {
  const engine::Stamp now = *engine::stamp_from_rfc3339("2026-08-14T19:40:00-07:00");
  const auto saved = store.append(store.next(now, std::move(body)));
  REQUIRE_MESSAGE(saved.ok(), saved.message());
}

void note(Store& store) { says(store, engine::NoteWritten{{}, {}, "note"}); }

std::set<std::int64_t> found(const storage::Journal& journal) {
  std::set<std::int64_t> numbers;
  CHECK(storage::each_key_entry(journal, [&](const storage::Sealed& s) {
          CHECK(numbers.insert(s.record.seq).second);
        }).ok());
  return numbers;
}

}  // namespace

TEST_CASE("what was noted with the checkpoint is found again, and what came later too") {
  const Folder folder;
  {
    Store a = open(folder);
    note(a);
    says(a, a.trust_in({}));
    note(a);
  }
  {
    const Store a = open(folder, 1);
    const auto rows = a.journal().kept_rows("keys");
    REQUIRE(rows.size() == 1);
    CHECK(rows[0].value == fmt::format("3 {} 2", kTablet));
    CHECK(a.counting().closed());
  }
  Store a = open(folder);
  CHECK(a.counting().closed());
  note(a);
  says(a, engine::TabletRefused{kOther, 1, {}});
  CHECK(found(a.journal()) == std::set<std::int64_t>{2, 5});
}

TEST_CASE("a note that does not fit is left alone, and everything looked through") {
  const Folder folder;
  Store a = open(folder);
  note(a);
  says(a, a.trust_in({}));
  note(a);
  const std::string mine = kTablet, other = kOther;
  for (const std::string& wrong :
       {"9 " + mine + " 2", "3 " + mine + " 1", "3 " + other + " 2", "3 " + mine, std::string("-1"),
        std::string("many"), std::string()}) {
    INFO(wrong);
    const storage::KeptRow row{"keys noted", wrong};
    REQUIRE(a.journal().keep_rows({&row, 1}).ok());
    CHECK(found(a.journal()) == std::set<std::int64_t>{2});
  }
}

}  // namespace key_entries_test
