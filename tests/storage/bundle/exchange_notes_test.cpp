#include "storage/bundle/exchange_notes.h"

#include <doctest/doctest.h>

#include "tests/support/journal_fixture.h"

namespace exchange_notes_test {

using namespace fixture;

TEST_CASE("notes of an exchange folder read back as written, and torn ones are none") {
  storage::ExchangeNotes notes;
  REQUIRE(storage::parse_seqs("1-40,45", notes["duskwalk-a"].numbers[kTablet]));
  REQUIRE(storage::parse_seqs("7", notes["duskwalk-a"].numbers[kOther]));
  REQUIRE(storage::parse_seqs("46-50", notes["duskwalk-b"].numbers[kTablet]));
  notes["duskwalk-b"].sides = {storage::sha256("a"), storage::sha256("b")};
  notes["duskwalk-c"].sides = {storage::sha256("a")};
  const std::string text = storage::to_text(notes);
  CHECK(storage::parse_exchange_notes(text) == notes);
  CHECK(storage::parse_exchange_notes("").empty());
  for (std::size_t at = 0; at < text.size() - 1; ++at) {
    CHECK(storage::parse_exchange_notes(text.substr(0, at)).empty());
    std::string flipped = text;
    flipped[at] = static_cast<char>(flipped[at] ^ 1);
    CHECK(storage::parse_exchange_notes(flipped).empty());
  }
}

}  // namespace exchange_notes_test
