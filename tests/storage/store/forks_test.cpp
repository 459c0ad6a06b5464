// Copies of one store that were both written on: every tablet that has both sides has one farm.
#include "engine/farm/forks.h"

#include <doctest/doctest.h>

#include <algorithm>
#include <filesystem>
#include <fstream>
#include <random>
#include <set>

#include "engine/words/contradictions.h"
#include "storage/bundle/exchange.h"
#include "storage/journal/backup.h"
#include "storage/journal/fork_rows.h"
#include "storage/store/checkpoint.h"
#include "storage/store/event_json.h"
#include "storage/store/repair.h"
#include "storage/store/store.h"
#include "tests/support/store_fixture.h"

namespace forks_test {

namespace fs = std::filesystem;
using namespace fixture;
using storage::Sealed;

namespace {

engine::DeviceId id_of(const std::string& device) { return {*engine::uuid_from_text(device)}; }

template <class Id>
Id number(unsigned n) {
  Id id;
  for (int i = 15; i >= 8; --i, n >>= 8U) id.bytes[static_cast<std::size_t>(i)] = n & 0xffU;
  return id;
}

engine::Stamp at(int minute) {
  engine::Stamp s;
  s.at = engine::Utc{engine::Ms{1'780'000'000'000 + minute * std::int64_t{60'000}}};
  return s;
}

storage::Store open(const std::string& path, storage::JournalOptions options = small()) {
  auto store = storage::Store::open(path, options);
  REQUIRE_MESSAGE(store.ok(), store.status().message());
  REQUIRE_MESSAGE(store.value().damage().empty(), store.value().damage());
  return std::move(store).value();
}

void enter(storage::Store& store, int minute, engine::Body body) {
  const auto saved = store.append(store.next(at(minute), std::move(body)));
  REQUIRE_MESSAGE(saved.ok(), saved.message());
}

void note(storage::Store& store, int minute, const std::string& text) {
  enter(store, minute, engine::NoteWritten{{}, {}, text});
}

std::uint64_t state(const storage::Store& store) { return engine::state_hash(store.farm()); }

// Two copies of a store with three entries, each with entries of its own.
struct Copies {
  Folder folder;
  std::string one = folder / "one.journal", two = folder / "two.journal";

  Copies() {
    {
      storage::Store store = open(one);
      enter(store, 0, engine::YardAdded{number<engine::YardId>(1), "Alder Bend", {}, "", ""});
      note(store, 1, "shared");
      note(store, 2, "wrong already");
    }
    fs::copy_file(one, two);
    storage::Store first = open(one), second = open(two);
    note(first, 10, "first");
    enter(first, 11, engine::EntryStruck{{id_of(kTablet), 3}, "no"});
    enter(first, 12, engine::EntryStruck{{id_of(kTablet), 4}, "no"});
    note(second, 5, "second");
    note(second, 20, "second again");
  }
  std::vector<Sealed> events(const std::string& path) { return all_of(open(path).journal()); }
  // Both hold both; gives the common state.
  std::uint64_t meet() {
    auto of_one = events(one), of_two = events(two);
    storage::Store first = open(one), second = open(two);
    merged(first, of_two), merged(second, of_one);
    CHECK(state(first) == state(second));
    return state(first);
  }
};

// Random entries of several tablets whose stores were copied now and then.
class Grower {
 public:
  explicit Grower(unsigned seed) : random_(seed) {}

  std::vector<Sealed> grow(int events) {
    for (int n = 0; n < events; ++n) add();
    return all_;
  }

 private:
  unsigned pick(std::size_t below) {
    return static_cast<unsigned>(random_() % static_cast<std::mt19937::result_type>(below));
  }

  engine::EntryRef any(const std::string& own, std::int64_t last) {
    if (pick(3) > 0 && last > 0) return {id_of(own), 1 + pick(static_cast<std::size_t>(last))};
    if (all_.empty()) return {id_of(own), 1};
    const auto& r = all_[pick(all_.size())].record;
    return {id_of(r.device), r.seq};
  }

  engine::Body body(const std::string& own, std::int64_t last) {
    const auto yard = number<engine::YardId>(pick(4));
    const auto colony = number<engine::ColonyId>(pick(12));
    const std::string word = std::to_string(pick(1000));
    switch (pick(9)) {
      case 0:
        return engine::YardAdded{yard, "Y" + word, {}, "", ""};
      case 1:
      case 2:
        return engine::ColonyAdded{colony, yard, "C" + std::to_string(pick(9)), 1, false};
      case 3:
        return engine::ColonyChanged{colony, "D" + word, {}, {}, {}, {}, {}};
      case 4:
      case 5:
        return engine::EntryStruck{any(own, last), "because " + word};
      case 6:
        return engine::EntryCorrected{any(own, last), "because",
                                      engine::Replacement{engine::NoteWritten{{}, {}, "r" + word}}};
      case 7:
        return engine::ClockFollowed{at(static_cast<int>(pick(500))).at.time_since_epoch().count()};
      default:
        return engine::NoteWritten{{}, {}, word};
    }
  }

  // After the last entry of the tablet, or of a copy of its store that stood at an earlier one.
  void add() {
    const std::string own = pick(3) == 0 ? kOther : pick(5) == 0 ? kThird : kTablet;
    std::vector<Sealed> its;
    for (const Sealed& s : all_)
      if (s.record.device == own) its.push_back(s);
    const bool copied = pick(7) == 0;
    const std::size_t on = its.empty() ? 0 : copied ? pick(its.size() + 1) : its.size();
    const std::int64_t last = on == 0 ? 0 : its[on - 1].record.seq;
    const engine::Event e{{id_of(own), last + 1}, at(static_cast<int>(pick(400))), body(own, last)};
    const storage::Hash prev = on == 0 ? storage::Hash{} : its[on - 1].hash;
    const Sealed s = storage::seal(storage::to_record(e), prev);
    if (std::find(all_.begin(), all_.end(), s) == all_.end()) all_.push_back(s);
  }

  std::mt19937 random_;
  std::vector<Sealed> all_;
};

// Merges all in portions at random, some of them twice, and closes the store now and then.
std::uint64_t in_portions(const std::string& path, const std::string& device,
                          std::vector<Sealed> all, std::mt19937& random) {
  std::shuffle(all.begin(), all.end(), random);
  std::vector<Sealed> seen;
  std::optional<storage::Store> store = open(path, small(device));
  for (std::size_t from = 0; from < all.size();) {
    const std::size_t size = std::min<std::size_t>(1 + random() % 12, all.size() - from);
    std::vector<Sealed> portion(all.begin() + static_cast<std::ptrdiff_t>(from),
                                all.begin() + static_cast<std::ptrdiff_t>(from + size));
    seen.insert(seen.end(), portion.begin(), portion.end());
    if (random() % 3 == 0) portion.push_back(seen[random() % seen.size()]);
    merged(*store, portion);
    from += size;
    if (random() % 4 != 0) continue;
    store.reset();
    store = open(path, small(device));
  }
  CHECK(store->journal().verify().ok());
  CHECK(store->journal().verify().waiting.empty());
  CHECK(store->farm().log.size() == all.size());
  return state(*store);
}

// Stores that are copied, written on and exchanged at random, each under the eyes of its screens.
class Tablets {
 public:
  explicit Tablets(unsigned seed) : random_(seed) { open(path(0)); }

  void live(int steps) {
    for (int n = 0; n < steps; ++n) step(n);
  }
  // All take in all; gives how many states there are then.
  std::size_t states() {
    std::vector<Sealed> all;
    for (int i = 0; i < stores_; ++i)
      for (Sealed& s : all_of(open(path(i)).journal())) all.push_back(std::move(s));
    std::set<std::uint64_t> found;
    for (int i = 0; i < stores_; ++i) {
      storage::Store store = open(path(i));
      merged(store, all);
      found.insert(state(store));
      branches_ = store.farm().branches.size();
    }
    return found.size();
  }
  [[nodiscard]] std::size_t branches() const { return branches_; }

 private:
  std::string path(int n) { return folder_ / std::to_string(n); }
  int pick(int below) { return static_cast<int>(random_() % static_cast<unsigned>(below)); }

  engine::Body body(const engine::Farm& farm) {
    const auto yard = number<engine::YardId>(static_cast<unsigned>(1 + pick(3)));
    switch (pick(5)) {
      case 0:
        return engine::YardAdded{yard, "Y" + std::to_string(pick(100)), {}, "", ""};
      case 1:
        return engine::ColonyAdded{number<engine::ColonyId>(static_cast<unsigned>(1 + pick(30))),
                                   yard, "C" + std::to_string(pick(9)), 1, false};
      case 2:
      case 3:
        if (!farm.log.empty())
          return engine::EntryStruck{
              farm.log[static_cast<std::size_t>(pick(static_cast<int>(farm.log.size())))]
                  ->event.ref,
              "no"};
        [[fallthrough]];
      default:
        return engine::NoteWritten{{}, {}, std::to_string(pick(1000))};
    }
  }

  void step(int n) {
    const int i = pick(stores_);
    if (pick(12) == 0 && stores_ < 5) {
      fs::copy_file(path(i), path(stores_++));
      return;
    }
    storage::Store store = open(path(i));
    if (pick(6) == 0) merged(store, all_of(open_other(i)));
    const auto event = store.next(at(pick(600)), body(store.farm()));
    (void)store.append(event);  // what is impossible leaves everything as it was
    const std::uint64_t shown = state(store);
    { const storage::Store closed = std::move(store); }
    if (n % 3 == 0) CHECK(state(open(path(i))) == shown);
  }
  storage::Journal open_other(int i) {
    const int other = stores_ == 1 ? -1 : (i + 1 + pick(stores_ - 1)) % stores_;
    auto journal =
        storage::Journal::open(other < 0 ? folder_ / "none" : path(other), small(kThird));
    REQUIRE(journal.ok());
    return std::move(journal).value();
  }

  std::mt19937 random_;
  Folder folder_;
  int stores_ = 1;
  std::size_t branches_ = 0;
};

}  // namespace

TEST_CASE("tablets that are copied, write and meet at random show what they will read again") {
  std::size_t branches = 0;
  for (unsigned seed = 1; seed <= 12; ++seed) {
    INFO("seed " << seed);
    Tablets tablets(seed);
    tablets.live(70);
    CHECK(tablets.states() == 1);
    branches += tablets.branches();
  }
  CHECK(branches > 20);
}

TEST_CASE("forks at random: any split, order and repetition gives every tablet the same state") {
  std::mt19937 random(20'261'127);  // fixed: the same run each time
  std::size_t branches = 0, deepest = 0;
  for (unsigned run = 1; run <= 30; ++run) {
    INFO("run " << run);
    const auto all = Grower(run).grow(20 + static_cast<int>(run) * 2);
    const Folder folder;
    storage::Store whole =
        open(folder / "whole.journal", small("0192aaaa-0000-7abc-8def-001122334455"));
    CHECK(merged(whole, all).added == static_cast<std::int64_t>(all.size()));
    const std::uint64_t want = state(whole);
    for (const std::string& device :
         {kTablet, kOther, std::string("0192bbbb-0000-7abc-8def-0011223344ff")})
      CHECK(in_portions(folder / device, device, all, random) == want);
    branches += whole.farm().branches.size();
    for (const engine::Branch& b : whole.farm().branches)
      deepest =
          std::max(deepest, static_cast<std::size_t>(engine::depth(whole.farm().branches, b.id)));
  }
  CHECK(branches > 100);
  CHECK(deepest > 2);
}

TEST_CASE("both sides of a copied store count, each tablet goes on under an id of its own") {
  Copies c;
  const std::uint64_t want = c.meet();
  storage::Store first = open(c.one), second = open(c.two);
  CHECK(state(first) == want);
  CHECK(first.farm().log.size() == 8);
  CHECK(first.farm().branches.size() == 2);
  CHECK(first.device() != second.device());
  CHECK(first.device() != id_of(kTablet));
  // What the first side struck: one entry both had, and one of its own.
  std::vector<std::string> struck;
  for (const engine::Entry& e : first.farm().log)
    if (e.struck) struck.push_back(std::get<engine::NoteWritten>(e.event.body).text);
  CHECK(struck == std::vector<std::string>{"wrong already", "first"});
  // They write on, exchange again, and no number is used twice.
  note(first, 30, "on one"), note(second, 31, "on two");
  auto of_first = all_of(first.journal()), of_second = all_of(second.journal());
  CHECK(merged(first, of_second).lines.empty());
  CHECK(merged(second, of_first).lines.empty());
  CHECK(state(first) == state(second));
  CHECK(first.farm().branches.size() == 2);
}

TEST_CASE("the lines say how many came, and under which id the tablet goes on") {
  Copies c;
  auto of_two = c.events(c.two);
  storage::Store first = open(c.one);
  const auto done = merged(first, of_two);
  CHECK(done.added == 2);
  CHECK(done.known == 3);
  REQUIRE(done.lines.size() == 2);
  CHECK(done.lines[0].find("Fork: a copy of tablet 0c1d2e3f") == std::string::npos);
  CHECK(done.lines[0].find("2 entries from 4 on came in beside") != std::string::npos);
  CHECK(done.lines[1].find("from now on it writes as tablet") != std::string::npos);
  CHECK(merged(first, of_two).lines.empty());
}

TEST_CASE("a fork is a contradiction until it is settled, or one side is struck") {
  Copies c;
  c.meet();
  storage::Store first = open(c.one);
  const auto found = engine::contradictions(first.farm());
  REQUIRE(found.size() == 1);
  CHECK(found[0].what == engine::Contradiction::Forked);
  REQUIRE(found[0].sides.size() == 2);
  const auto ahead = [&](const engine::EntryRef& a, const engine::EntryRef& b) {
    return engine::side_of(first.farm(), a.device).entries <
           engine::side_of(first.farm(), b.device).entries;
  };
  const auto two = *std::min_element(found[0].sides.begin(), found[0].sides.end(), ahead);
  CHECK(engine::side_of(first.farm(), two.device).entries == 2);
  CHECK(engine::to_strike(first.farm(), two.device) == 2);
  auto strikes =
      engine::strikes_of_side(first.farm(), two.device, "only tried out", first.device(), at(40));
  REQUIRE(strikes.size() == 2);
  strikes.emplace_back(engine::ContradictionSettled{found[0].sides, "only tried out"});
  REQUIRE(first.append_all(first.next_all(at(40), strikes)).ok());
  CHECK(engine::contradictions(first.farm()).empty());
  CHECK(engine::to_strike(first.farm(), two.device) == 0);
  storage::Store second = open(c.two);
  merged(second, all_of(first.journal()));
  CHECK(state(first) == state(second));
  CHECK(engine::contradictions(second.farm()).empty());
}

TEST_CASE("while a walk is under way here, entries of a copy wait outside") {
  Copies c;
  auto of_two = c.events(c.two);
  storage::Store first = open(c.one);
  enter(
      first, 30,
      engine::ColonyAdded{number<engine::ColonyId>(1), number<engine::YardId>(1), "A1", 1, false});
  enter(first, 30, engine::KitAdded{number<engine::KitId>(1), engine::KitSort::Vaporizer, "1"});
  engine::WalkOpened walk;
  walk.walk = number<engine::WalkId>(1);
  walk.yard = number<engine::YardId>(1);
  walk.colonies = {number<engine::ColonyId>(1)};
  walk.vaporizers = {number<engine::KitId>(1)};
  walk.rules.product = "oxalic acid";
  walk.rules.per_brood_box = {1000};
  enter(first, 31, walk);
  const std::uint64_t before = state(first);
  CHECK(first.merge(of_two).status().code() == storage::Code::Busy);
  CHECK(state(first) == before);
  CHECK(first.journal().device() == kTablet);
  CHECK(first.journal().sides().empty());
  enter(first, 32, engine::WalkClosed{walk.walk});
  CHECK(merged(first, of_two).added == 2);
}

TEST_CASE("a backup carries both sides, and so does the store made from it") {
  Copies c;
  const std::uint64_t want = c.meet();
  REQUIRE(open(c.one).journal().backup_to(c.folder / "backup").ok());
  REQUIRE(storage::restore_backup(c.folder / "backup", c.folder / "new.journal", kThird).ok());
  const storage::Store restored = open(c.folder / "new.journal");
  CHECK(state(restored) == want);
  CHECK(restored.journal().device() == kThird);
  const auto entries = storage::read_backup(c.folder / "backup", c.folder / "scratch");
  REQUIRE(entries.ok());
  storage::Store taken = open(c.folder / "taken.journal", small(kOther));
  merged(taken, entries.value());
  CHECK(state(taken) == want);
}

TEST_CASE("through an exchange folder both sides reach tablets that had neither") {
  Copies c;
  const std::uint64_t want = c.meet();
  const storage::ExchangePlace place{c.folder / "shared", "2026-08-14"};
  fs::create_directory(place.folder);
  storage::Store first = open(c.one);
  REQUIRE(storage::exchange(first, place).ok());
  const auto waits = storage::exchange_waits(first, place.folder);
  REQUIRE(waits.ok());
  CHECK_FALSE(waits.value());
  storage::Store third = open(c.folder / "third.journal", small(kThird));
  const auto came = storage::exchange(third, place);
  REQUIRE(came.ok());
  CHECK(came.value().put.empty());  // all of it is in the folder already
  CHECK(state(third) == want);
  CHECK_FALSE(storage::exchange_waits(third, place.folder).value());
}

TEST_CASE("a side that no bundle in the exchange folder holds is put out") {
  Copies c;
  auto of_two = c.events(c.two);
  const storage::ExchangePlace place{c.folder / "shared", "2026-08-14"};
  fs::create_directory(place.folder);
  storage::Store first = open(c.one);
  REQUIRE(storage::exchange(first, place).ok());
  merged(first, of_two);
  CHECK(storage::exchange_waits(first, place.folder).value());
  REQUIRE(storage::exchange(first, place).ok());
  storage::Store third = open(c.folder / "third.journal", small(kThird));
  REQUIRE(storage::exchange(third, place).ok());
  CHECK(state(third) == state(first));
}

TEST_CASE("a damaged entry of another side is noticed, and the mended store has all the rest") {
  Copies c;
  c.meet();
  std::ifstream in(c.one, std::ios::binary);
  std::string bytes{std::istreambuf_iterator<char>(in), {}};
  const std::size_t at = bytes.find("second again");
  REQUIRE(at != std::string::npos);
  bytes[at] = 'S';
  std::ofstream(c.one, std::ios::binary) << bytes;
  auto store = storage::Store::open(c.one, small());
  REQUIRE(store.ok());
  REQUIRE(store.value().journal().damage());
  CHECK(store.value().damage().find("other sides of a fork") != std::string::npos);
  CHECK(store.value().damage().find("1 of 8 events cannot be read (of other sides of forks: 1)") !=
        std::string::npos);
  CHECK_FALSE(store.value().journal().verify().ok());
  REQUIRE(storage::mend(store.value(), "damaged", kThird).ok());
  CHECK(store.value().damage().empty());
  CHECK(store.value().journal().sides().size() == 1);
  merged(store.value(), c.events(c.two));
  CHECK(state(store.value()) == state(open(c.two)));
}

TEST_CASE("sides that are gone are noticed by the file beside the store") {
  Copies c;
  const std::string before = c.folder / "before.journal";
  fs::copy_file(c.one, before);
  c.meet();
  fs::copy_file(before, c.one, fs::copy_options::overwrite_existing);
  auto store = storage::Store::open(c.one, small());
  REQUIRE(store.ok());
  CHECK(store.value().journal().damage());
}

TEST_CASE("a store with sides opens by its checkpoint as by its journal") {
  Copies c;
  c.meet();
  storage::JournalOptions large = small();
  large.checkpoint_from = 4;
  { open(c.one, large); }
  REQUIRE(fs::exists(storage::checkpoint_path(c.one)));
  {
    storage::Store store = open(c.one, large);
    CHECK(store.journal().proven_before() == store.journal().size());
    CHECK(state(store) == state(open(c.two)));
    note(store, 50, "later");
  }
  const std::uint64_t want = state(open(c.one));
  storage::Store store = open(c.one, large);
  CHECK(store.journal().proven_before() > 0);
  CHECK(state(store) == want);
  // A third side comes: the checkpoint stands on a store without it.
  const storage::Record third =
      storage::to_record({{id_of(kTablet), 4}, at(6), engine::NoteWritten{{}, {}, "third"}});
  merged(store, {storage::seal(third, all_of(store.journal())[2].hash)});
  CHECK(store.farm().branches.size() == 3);
  const std::uint64_t now = state(store);
  { const storage::Store closed = std::move(store); }
  CHECK(state(open(c.one, large)) == now);
}

}  // namespace forks_test
