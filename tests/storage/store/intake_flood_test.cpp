// What a small stick may do to every later start: gaps, forks and lists are bounded when they come.
#include <doctest/doctest.h>

#include <ctime>

#include "storage/store/event_json.h"
#include "storage/store/store.h"
#include "tests/support/store_fixture.h"

namespace intake_flood_test {

using namespace fixture;

namespace {

// Every other number of a tablet.
std::vector<storage::Sealed> full_of_gaps(std::int64_t entries, const std::string& device) {
  std::vector<storage::Sealed> all;
  for (std::int64_t n = 1; n <= entries; ++n)
    all.push_back(storage::seal(note_of(2 * n, device), storage::sha256(std::to_string(n))));
  return all;
}

std::string other_tablet(int n) { return fmt::format("0191ffff-0000-7abc-8def-{:012x}", n); }

double seconds_to_open(const Folder& folder) {
  const std::clock_t begin = std::clock();
  (void)store_in(folder);
  return static_cast<double>(std::clock() - begin) / CLOCKS_PER_SEC;
}

bool says(const storage::Merged& done, const std::string& words) {
  for (const std::string& line : done.lines)
    if (line.find(words) != std::string::npos) return true;
  return false;
}

}  // namespace

TEST_CASE("10,000 gaps of one tablet, and of many: so many are kept, the rest is named") {
  const Folder folder;
  {
    storage::Store store = store_in(folder);
    const auto one = merged(store, full_of_gaps(10'000, kOther));
    CHECK(one.added == storage::kMostGapsOfOne);
    CHECK(says(one, "Left out: 8000 entries of tablet 22334455: too many"));
    std::vector<storage::Sealed> many;
    for (int n = 0; n < 5'000; ++n)
      for (const storage::Sealed& s : full_of_gaps(2, other_tablet(n))) many.push_back(s);
    const auto others = merged(store, std::move(many));
    CHECK(others.added == storage::kMostGaps - storage::kMostGapsOfOne);
    // An honest tablet that begins with its first entry comes in all the same.
    std::vector<storage::Sealed> honest;
    for (std::int64_t n = 1; n <= 50; ++n)
      honest.push_back(
          storage::seal(note_of(n, kThird), honest.empty() ? storage::Hash{} : honest.back().hash));
    CHECK(merged(store, honest).added == 50);
    CHECK(store.verify().ok());
  }
  CHECK(seconds_to_open(folder) < 10);  // in a build for debugging; a second as shipped
}

TEST_CASE("10,000 forks of one tablet: so many are kept, and what hangs on the rest is left out") {
  const Folder folder;
  {
    storage::Store store = store_in(folder);
    const auto first = storage::seal(note_of(1, kOther), {});
    CHECK(merged(store, {first}).added == 1);
    std::vector<storage::Sealed> forks;
    for (int n = 0; n < 5'000; ++n) {
      forks.push_back(storage::seal(note_of(2, kOther, "side " + std::to_string(n)), first.hash));
      forks.push_back(storage::seal(note_of(3, kOther, "more"), forks.back().hash));
    }
    const auto done = merged(store, forks);
    CHECK(done.added <= 2 * storage::kMostBranchesOfOne + 2);
    CHECK(done.added >= storage::kMostBranchesOfOne);
    CHECK(says(done, "too many of its entries are missing or were written twice"));
    CHECK(store.verify().ok());
    CHECK(merged(store, forks).added == 0);  // and no more come by trying again
  }
  CHECK(seconds_to_open(folder) < 10);
}

TEST_CASE("a gap that closes makes room for another") {
  const Folder folder;
  storage::Store store = store_in(folder);
  std::vector<storage::Sealed> all;
  for (std::int64_t n = 1; n <= 10'000; ++n)
    all.push_back(
        storage::seal(note_of(n, kOther), all.empty() ? storage::Hash{} : all.back().hash));
  std::vector<storage::Sealed> even, odd;
  for (const storage::Sealed& s : all) (s.record.seq % 2 == 0 ? even : odd).push_back(s);
  CHECK(merged(store, even).added == storage::kMostGapsOfOne);
  CHECK(merged(store, all).added == 10'000 - storage::kMostGapsOfOne);
  CHECK(store.farm().log.size() == 10'000);
}

TEST_CASE("a plan of 58,464 rounds does not come in") {
  const Folder folder;
  storage::Store store = store_in(folder);
  engine::WalkOpened walk;
  walk.colonies.resize(58'464);
  const auto saved = store.append(store.next({}, walk));
  CHECK(saved.code() == engine::Code::BadInput);
  CHECK(saved.message().find("a list of 58464") != std::string::npos);
}

}  // namespace intake_flood_test
