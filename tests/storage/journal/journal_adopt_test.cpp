#include <doctest/doctest.h>

#include <algorithm>
#include <random>

#include "tests/support/journal_fixture.h"

namespace journal_adopt_test {

using namespace storage;
using fixture::kOther;
using fixture::kTablet;
using fixture::record;
using fixture::small;

namespace {

Journal open(const std::string& path, const std::string& device = kTablet) {
  auto journal = Journal::open(path, small(device));
  REQUIRE(journal.ok());
  return std::move(journal).value();
}

std::vector<Sealed> chain(const std::string& device, std::int64_t to) {
  std::vector<Sealed> events;
  for (const Record& r : fixture::records(1, to, device)) {
    events.push_back(seal(r, events.empty() ? Hash{} : events.back().hash));
  }
  return events;
}

}  // namespace

TEST_CASE("merging is a union: any order, any repetition, the same events") {
  std::mt19937 random(3);
  const auto events = chain(kOther, 30);
  for (int round = 0; round < 20; ++round) {
    const fixture::Folder folder;
    Journal journal = open(folder / "store");
    auto shuffled = events;
    shuffled.insert(shuffled.end(), events.begin(), events.begin() + 10);
    std::shuffle(shuffled.begin(), shuffled.end(), random);
    const auto adopted = journal.adopt_all(shuffled);
    REQUIRE(adopted.ok());
    CHECK(adopted.value().added == 30);
    CHECK(adopted.value().known == 10);
    CHECK(adopted.value().forks.empty());
    CHECK(journal.last(kOther) == Head{30, events.back().hash});
    CHECK(journal.verify().ok());
    CHECK(journal.verify().waiting.empty());
  }
}

TEST_CASE("a gap in another tablet's events is waited for, not called damage") {
  const fixture::Folder folder;
  const auto events = chain(kOther, 9);
  {
    Journal journal = open(folder / "store");
    REQUIRE(journal.adopt_all(std::vector(events.begin(), events.begin() + 3)).ok());
    REQUIRE(journal.adopt_all(std::vector(events.begin() + 6, events.begin() + 9)).ok());
  }
  Journal journal = open(folder / "store");
  REQUIRE_FALSE(journal.damage());
  CHECK(to_text(journal.verify().waiting.at(kOther)) == "4-6");
  REQUIRE(journal.adopt_all(events).ok());
  CHECK(journal.verify().waiting.empty());
}

TEST_CASE("two different events under one number are a fork: both kept, nothing overwritten") {
  const fixture::Folder folder;
  const auto ours = chain(kOther, 5);
  Record other_fifth = record(5, kOther);
  other_fifth.kind = "note";
  const Sealed fork = seal(other_fifth, ours[3].hash);
  const std::vector<Sealed> more{fork, seal(record(6, kOther), fork.hash),
                                 seal(record(6, kOther), ours[4].hash)};
  {
    Journal journal = open(folder / "store");
    REQUIRE(journal.adopt_all(ours).ok());
    const auto adopted = journal.adopt_all(more);
    REQUIRE(adopted.ok());
    CHECK(adopted.value().added == 3);
    REQUIRE(adopted.value().forks.size() == 2);
    CHECK(adopted.value().forks[0].seq == 5);
    CHECK(journal.adopt_all(more).value().known == 3);
  }
  const Journal again = open(folder / "store");
  REQUIRE_FALSE(again.damage());
  CHECK(again.device() == kTablet);
  CHECK(again.sides().size() == 2);
  CHECK(fixture::all_of(again).size() == 8);
  CHECK(fixture::all_of(again)[4] == ours[4]);
  CHECK(again.verify().ok());
}

TEST_CASE("an event that is not as it was written spoils its whole batch") {
  const fixture::Folder folder;
  auto events = chain(kOther, 5);
  events[4].record.at_utc_ms += 1;
  Journal journal = open(folder / "store");
  CHECK(journal.adopt_all(events).status().code() == Code::Damaged);
  CHECK(journal.size() == 0);
}

TEST_CASE("a restored tablet takes its own events back in order, then goes on under a new id") {
  const fixture::Folder folder;
  const auto own = chain(kTablet, 8);
  Journal journal = open(folder / "store");
  REQUIRE(journal.append_all(fixture::records(1, 5)).ok());
  REQUIRE(journal.adopt_all(own).ok());
  CHECK(journal.renew_device(kTablet).code() == Code::BadInput);
  REQUIRE(journal.renew_device(fixture::kThird).ok());
  CHECK(journal.append(record(9)).code() == Code::BadInput);
  REQUIRE(journal.append(record(1, fixture::kThird)).ok());
  { const Journal closed = std::move(journal); }
  const Journal again = open(folder / "store");
  CHECK(again.device() == fixture::kThird);
  CHECK(again.verify().ok());
  CHECK(again.size() == 9);
}

TEST_CASE("a new journal takes over what a damaged one still holds") {
  const fixture::Folder folder;
  { REQUIRE(open(folder / "store").append_all(fixture::records(1, 200)).ok()); }
  std::filesystem::resize_file(folder / "store", std::filesystem::file_size(folder / "store") / 2);
  const Journal broken = open(folder / "store");
  REQUIRE(broken.damage());
  CHECK_FALSE(rescue(broken, folder / "fresh", small(kTablet)).ok());
  auto fresh = rescue(broken, folder / "fresh", small(kOther));
  REQUIRE(fresh.ok());
  CHECK(fresh.value().size() == broken.size());
  CHECK(fresh.value().size() > 20);
  CHECK(fresh.value().append(record(1, kOther)).ok());
  CHECK(fresh.value().verify().ok());
}

}  // namespace journal_adopt_test
