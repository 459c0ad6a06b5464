#include "storage/journal/progress_mark.h"

#include <doctest/doctest.h>

#include "tests/support/journal_fixture.h"

namespace progress_mark_test {

using namespace storage;

namespace {

ProgressMark sample() {
  ProgressMark tip{fixture::kTablet, 43, {}};
  for (std::int64_t n = 1; n <= 40; ++n) hold(tip.held, fixture::kTablet, n, sha256("a"));
  for (const std::int64_t n : {1, 2, 7}) hold(tip.held, fixture::kOther, n, sha256("b"));
  return tip;
}

}  // namespace

TEST_CASE("a tip comes back from its text") {
  const auto back = parse_tip(to_text(sample()));
  REQUIRE(back);
  CHECK(back->device == fixture::kTablet);
  CHECK(back->arrivals == 43);
  CHECK(to_text(back->held.at(fixture::kOther).seqs) == "1-2,7");
  CHECK(back->held.at(fixture::kTablet).head == Head{40, sha256("a")});
}

TEST_CASE("the end of an older, longer tip does not matter") {
  const std::string text = to_text(sample());
  CHECK(parse_tip(text + text.substr(30)));
}

TEST_CASE("a torn tip is ignored: every cut, every flipped bit") {
  const std::string text = to_text(sample());
  for (std::size_t i = 0; i + 1 < text.size(); ++i) {
    CHECK_FALSE(parse_tip(text.substr(0, i)));
    for (int bit = 0; bit < 8; ++bit) {
      std::string bent = text;
      bent[i] = static_cast<char>(bent[i] ^ (1 << bit));
      // The hexadecimal sum itself is the only text; no bit of it may go unseen.
      CHECK_FALSE(parse_tip(bent));
    }
  }
}

}  // namespace progress_mark_test
