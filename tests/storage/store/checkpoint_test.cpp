#include "storage/store/checkpoint.h"

#include <doctest/doctest.h>

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <optional>
#include <random>

#include "engine/farm/fold.h"
#include "storage/store/event_json.h"
#include "storage/store/store.h"
#include "tests/bench/operation.h"
#include "tests/support/journal_fixture.h"
#include "tests/support/lists_hold.h"

namespace checkpoint_test {

namespace fs = std::filesystem;
using namespace fixture;

namespace {

constexpr std::int64_t kEvents = 4000;

std::vector<storage::Sealed> entries(int tablets, std::int64_t events = kEvents) {
  std::vector<storage::Sealed> all;
  operation::Size size;
  size.colonies = 60, size.yards = 6, size.tablets = tablets, size.years = 2, size.events = events;
  operation::generate(size, [&](const storage::Sealed& s) { all.push_back(s); });
  return all;
}

engine::Event event_of(const storage::Sealed& s) {
  auto event = storage::to_event(s.record);
  REQUIRE_MESSAGE(event.ok(), event.status().message());
  return std::move(event).value();
}

storage::JournalOptions large(const std::string& device = kTablet) {
  storage::JournalOptions options = small();
  options.device = device;
  options.checkpoint_from = 1000;
  return options;
}

storage::Store open(const std::string& path, const storage::JournalOptions& options = large()) {
  auto store = storage::Store::open(path, options);
  REQUIRE_MESSAGE(store.ok(), store.status().message());
  REQUIRE_MESSAGE(store.value().damage().empty(), store.value().damage());
  return std::move(store).value();
}

// What a journal says without any checkpoint.
std::uint64_t by_journal(const std::string& path) {
  storage::JournalOptions plain = large();
  plain.checkpoint_from = 0;
  return engine::state_hash(open(path, plain).farm());
}

// A store with all of them, and its checkpoint.
std::string store_with(const Folder& folder, std::vector<storage::Sealed> all) {
  std::string path = folder / "farm.journal";
  storage::Store store = open(path);
  const auto merged = store.merge(std::move(all));
  REQUIRE_MESSAGE(merged.ok(), merged.status().message());
  CHECK_MESSAGE(merged.value().lines.empty(), merged.value().lines.front());
  return path;
}

engine::Stamp evening_at(int n) {
  engine::Stamp s = *engine::stamp_from_rfc3339("2026-08-14T19:40:00-07:00");
  return engine::after(s, engine::Seconds{n});
}

void flip_byte(const std::string& path, std::int64_t at) {
  std::fstream file(path, std::ios::in | std::ios::out | std::ios::binary);
  file.seekg(at);
  const char was = static_cast<char>(file.get());
  file.seekp(at);
  file.put(static_cast<char>(was ^ 8));
}

}  // namespace

TEST_CASE("a store opens by its checkpoint as it does by its journal") {
  const Folder folder;
  const std::string path = store_with(folder, entries(3));
  REQUIRE(fs::exists(storage::checkpoint_path(path)));
  const std::uint64_t want = by_journal(path);
  {
    storage::Store store = open(path);
    CHECK(store.journal().proven_before() == kEvents);
    CHECK(engine::state_hash(store.farm()) == want);
    engine::lists_hold(store.farm());
    for (int n = 0; n < 3; ++n)  // what comes later is replayed on top
      REQUIRE(store.append(store.next(evening_at(n), engine::NoteWritten{{}, {}, "late"})).ok());
  }
  const std::uint64_t later = by_journal(path);
  storage::Store store = open(path);
  CHECK(store.journal().proven_before() == kEvents);
  CHECK(engine::state_hash(store.farm()) == later);
  CHECK(later != want);
}

TEST_CASE("a checkpoint that was written over a longer one is used") {
  const Folder folder;
  const std::string path = store_with(folder, entries(3));
  const std::string checkpoint = storage::checkpoint_path(path);
  fs::resize_file(checkpoint, fs::file_size(checkpoint) + 3'000'000);
  CHECK(open(path).journal().proven_before() == kEvents);
}

TEST_CASE("a checkpoint that is damaged, torn, of another store or program is not used") {
  const Folder folder;
  const std::string path = store_with(folder, entries(2));
  const std::string checkpoint = storage::checkpoint_path(path);
  const std::uint64_t want = by_journal(path);
  const auto size = static_cast<std::int64_t>(fs::file_size(checkpoint));
  const auto rebuilt = [&](const char* what) {
    INFO(what);
    const storage::Store store = open(path);
    CHECK(store.journal().proven_before() == 0);
    CHECK(engine::state_hash(store.farm()) == want);
    CHECK(fs::exists(checkpoint));  // made anew
  };
  for (const std::int64_t at :
       {std::int64_t{3}, std::int64_t{30}, std::int64_t{60}, size / 2, size - 1}) {
    flip_byte(checkpoint, at);
    rebuilt("a flipped bit");
  }
  fs::resize_file(checkpoint, static_cast<std::uintmax_t>(size / 3));
  rebuilt("cut off");
  {
    const Folder other;
    fs::copy_file(storage::checkpoint_path(store_with(other, entries(2, 3000))), checkpoint,
                  fs::copy_options::overwrite_existing);
  }
  rebuilt("that of another store");
}

TEST_CASE("an event that went bad under a checkpoint is found within some openings") {
  const Folder folder;
  const std::string path = store_with(folder, entries(2));
  std::ifstream in(path, std::ios::binary);
  std::string bytes{std::istreambuf_iterator<char>(in), {}};
  const std::size_t at = bytes.find("tipped over");
  REQUIRE(at != std::string::npos);
  flip_byte(path, static_cast<std::int64_t>(at));
  const auto store = storage::Store::open(path, large());
  REQUIRE(store.ok());
  CHECK(store.value().damage().find("is damaged") != std::string::npos);
}

TEST_CASE("a strike folds what comes after it, and gives what folding everything gives") {
  engine::Farm farm;
  std::vector<engine::Event> events;
  for (const storage::Sealed& s : entries(1, 3000)) {
    events.push_back(event_of(s));
    REQUIRE(engine::why_not(farm, events.back()) == engine::Refusal::None);
    farm = engine::apply(std::move(farm), events.back());
  }
  CHECK(farm.snapshots.size() >= 3);
  CHECK(engine::state_hash(farm) == engine::state_hash(engine::fold_together(events)));
  std::mt19937 random(7);
  int struck = 0;
  for (int n = 0; n < 400 && struck < 60; ++n) {
    engine::Event strike = events.back();
    ++strike.ref.seq;
    strike.body = engine::EntryStruck{events[random() % events.size()].ref, "by chance"};
    if (engine::why_not(farm, strike) != engine::Refusal::None) continue;
    events.push_back(strike);
    farm = engine::apply(std::move(farm), strike);
    if (++struck % 10 != 0) continue;
    engine::Farm again = farm;
    again.snapshots.clear();
    CHECK(engine::state_hash(engine::fold_again(again)) == engine::state_hash(farm));
    CHECK(engine::state_hash(engine::fold_together(events)) == engine::state_hash(farm));
  }
  CHECK(struck >= 20);
}

TEST_CASE("any split, order and repetition of what is merged gives the same state") {
  const auto all = entries(3, 2500);
  std::optional<std::uint64_t> want;
  for (unsigned seed = 1; seed <= 4; ++seed) {
    const Folder folder;
    storage::Store store = open(folder / "farm.journal");
    std::mt19937 random(seed);
    std::vector<storage::Sealed> mixed = all;
    if (seed > 1) std::shuffle(mixed.begin(), mixed.end(), random);
    for (std::size_t from = 0; from < mixed.size();) {
      const std::size_t part = 1 + random() % 900;
      const auto begin = mixed.begin() + static_cast<std::ptrdiff_t>(from);
      const auto end =
          mixed.begin() + static_cast<std::ptrdiff_t>(std::min(from + part, mixed.size()));
      REQUIRE(store.merge({begin, end}).ok());
      if (random() % 3 == 0) {
        REQUIRE(store.merge({begin, end}).ok());
      }
      from += part;
    }
    const std::uint64_t got = engine::state_hash(store.farm());
    if (!want) want = got;
    CHECK(got == *want);
    CHECK(store.farm().log.size() == all.size());
  }
}

}  // namespace checkpoint_test
