#include "storage/journal/known_events.h"

#include <doctest/doctest.h>

#include <random>
#include <set>

namespace known_events_test {

using namespace storage;

TEST_CASE("ranges join when the number between them comes") {
  SeqRanges set;
  for (const std::int64_t seq : {5, 1, 3, 2, 9, 4, 4}) set.add(seq);
  CHECK(to_text(set) == "1-5,9");
  CHECK(set.count() == 6);
  CHECK(set.top() == 9);
  CHECK(set.holds(3));
  CHECK_FALSE(set.holds(6));
}

TEST_CASE("ranges agree with a plain set of numbers, whatever is added") {
  std::mt19937 random(7);
  for (int round = 0; round < 200; ++round) {
    SeqRanges ranges, other;
    std::set<std::int64_t> plain, gone;
    for (int i = 0; i < 30; ++i) {
      const std::int64_t a = random() % 40 + 1, b = random() % 40 + 1;
      ranges.add(a), plain.insert(a), other.add(b), gone.insert(b);
    }
    const SeqRanges left = ranges.without(other);
    for (std::int64_t n = 0; n < 45; ++n) {
      REQUIRE(ranges.holds(n) == plain.contains(n));
      REQUIRE(left.holds(n) == (plain.contains(n) && !gone.contains(n)));
    }
    REQUIRE(ranges.count() == static_cast<std::int64_t>(plain.size()));
    SeqRanges back;
    REQUIRE(parse_seqs(to_text(ranges), back));
    REQUIRE(back == ranges);
  }
}

TEST_CASE("text that is not a list of rising ranges is refused") {
  for (const std::string text : {"x", "1-", "-1", "3-2", "5,1", "0", "1,,2", "1-3,2", "1 2"}) {
    INFO(text);
    SeqRanges set;
    CHECK_FALSE(parse_seqs(text, set));
  }
}

}  // namespace known_events_test
