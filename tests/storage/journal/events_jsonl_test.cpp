#include "storage/journal/events_jsonl.h"

#include <doctest/doctest.h>

#include <algorithm>

#include "tests/support/payload_fixture.h"

namespace events_jsonl_test {

using namespace fixture;

TEST_CASE("events come back as they were, hashes and all") {
  const auto journal = journal_of(hostile_evening().farm);
  const std::string text = storage::events_jsonl(journal);
  CHECK(static_cast<std::size_t>(std::count(text.begin(), text.end(), '\n')) == journal.size());
  const auto back = storage::read_events_jsonl(text);
  REQUIRE(back.ok());
  CHECK(back.value() == journal);
}

TEST_CASE("no events is no lines") {
  CHECK(storage::events_jsonl({}).empty());
  CHECK(storage::read_events_jsonl("").value().empty());
}

TEST_CASE("every single flipped byte is noticed, and the line is named") {
  auto journal = journal_of(evening().farm);
  journal.resize(2);
  const std::string good = storage::events_jsonl(journal);
  const std::size_t second = good.find('\n') + 1;
  for (std::size_t i = 0; i < good.size(); ++i) {
    std::string bad = good;
    bad[i] = static_cast<char>(bad[i] ^ 1);
    const auto back = storage::read_events_jsonl(bad);
    INFO(i);
    REQUIRE_FALSE(back.ok());
    CHECK(back.status().code() == engine::Code::Damaged);
    const std::string line = i < second ? "line 1" : "line 2";
    CHECK(back.status().message().find(line) != std::string::npos);
  }
}

TEST_CASE("a file cut short anywhere but between lines is refused") {
  auto journal = journal_of(evening().farm);
  journal.resize(2);
  const std::string good = storage::events_jsonl(journal);
  const std::size_t second = good.find('\n') + 1;
  for (std::size_t n = 1; n < good.size(); ++n) {
    INFO(n);
    CHECK(storage::read_events_jsonl(good.substr(0, n)).ok() == (n == second));
  }
}

}  // namespace events_jsonl_test
