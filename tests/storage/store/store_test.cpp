#include "storage/store/store.h"

#include <doctest/doctest.h>

#include <filesystem>
#include <fstream>
#include <sstream>

#include "storage/disk/random.h"
#include "storage/store/event_json.h"

namespace store_test {

namespace {

namespace fs = std::filesystem;
using engine::Body;
using engine::Code;
using storage::Store;

const std::string kDevice = "018f0000-0000-7000-8000-00000000000a";

struct Folder {
  fs::path path;
  explicit Folder(const std::string& name)
      : path(fs::temp_directory_path() / ("duskwalk-store-" + name)) {
    fs::remove_all(path);
  }
  Folder(const Folder&) = delete;
  Folder& operator=(const Folder&) = delete;
  ~Folder() { fs::remove_all(path); }
  [[nodiscard]] std::string file() const { return (path / "below" / "duskwalk.journal").string(); }
};

storage::JournalOptions options() {
  storage::JournalOptions o;
  o.device = kDevice;
  o.ballast_bytes = 0;
  return o;
}

Store opened(const std::string& file) {
  auto store = Store::open(file, options());
  REQUIRE_MESSAGE(store.ok(), store.status().message());
  return std::move(store).value();
}

engine::Stamp stamp(int minute) {
  return {engine::Utc{engine::Ms{1'786'000'000'000 + minute * 60'000}}, std::chrono::minutes{120},
          "boot", engine::Ms{minute * 60'000}};
}

template <class T>
engine::Id<T> id(int n) {
  return {storage::IdMaker(static_cast<std::uint64_t>(n))(n)};
}

Body yard(int n, const std::string& name) {
  return engine::YardAdded{id<engine::YardTag>(n), name, {}, "", ""};
}

Body colony(int n, int in_yard, const std::string& name) {
  engine::ColonyAdded c;
  c.colony = id<engine::ColonyTag>(n);
  c.yard = id<engine::YardTag>(in_yard);
  c.name = name;
  return c;
}

void add_two_yards(Store& store) {
  REQUIRE(store.append(store.next(stamp(0), yard(1, "Upper Field"))).ok());
  const auto rest = store.next_all(stamp(1), {yard(2, "Brook"), colony(3, 2, "B1")});
  REQUIRE(store.append_all(rest).ok());
}

}  // namespace

TEST_CASE("a store opened again has the same farm to the bit") {
  const Folder folder("again");
  std::uint64_t before = 0;
  {
    Store store = opened(folder.file());
    add_two_yards(store);
    before = engine::state_hash(store.farm());
  }
  const Store store = opened(folder.file());
  CHECK(store.farm().yards.size() == 2);
  CHECK(store.farm().log.size() == 3);
  CHECK(engine::state_hash(store.farm()) == before);
  CHECK(store.damage().empty());
  CHECK(engine::text(store.device()) == kDevice);
}

TEST_CASE("the farm holds what a replay will read, also for text that is not UTF-8") {
  const Folder folder("latin");
  std::uint64_t before = 0;
  {
    Store store = opened(folder.file());
    REQUIRE(store.append(store.next(stamp(0), yard(1, "Caf\xe9"))).ok());
    before = engine::state_hash(store.farm());
  }
  CHECK(engine::state_hash(opened(folder.file()).farm()) == before);
}

TEST_CASE("an impossible event is refused with its reason and nothing is written") {
  const Folder folder("impossible");
  Store store = opened(folder.file());
  const auto refused = store.append(store.next(stamp(0), colony(3, 9, "B1")));
  CHECK(refused.code() == Code::BadInput);
  CHECK(refused.message().find("colony_added") != std::string::npos);
  CHECK(refused.message().find("no_such_yard") != std::string::npos);
  CHECK(store.journal().size() == 0);
  CHECK(store.farm().log.empty());
}

TEST_CASE("of many events all are taken or none") {
  const Folder folder("all");
  Store store = opened(folder.file());
  const auto events = store.next_all(stamp(0), {yard(1, "A"), colony(3, 9, "B1")});
  CHECK(store.append_all(events).code() == Code::BadInput);
  CHECK(store.journal().size() == 0);
  CHECK(store.farm().yards.empty());
  add_two_yards(store);
  CHECK(store.journal().size() == 3);
}

TEST_CASE("a damaged journal opens read-only with the events that can be read, and says so") {
  const Folder folder("damaged");
  {
    Store store = opened(folder.file());
    add_two_yards(store);
  }
  std::string bytes(
      (std::ostringstream() << std::ifstream(folder.file(), std::ios::binary).rdbuf()).str());
  const auto at = bytes.find("Brook");
  REQUIRE(at != std::string::npos);
  bytes[at] = 'b';
  std::ofstream(folder.file(), std::ios::binary) << bytes;
  Store store = opened(folder.file());
  CHECK_FALSE(store.damage().empty());
  CHECK(store.farm().yards.size() == 1);
  CHECK_FALSE(store.append(store.next(stamp(5), yard(7, "New"))).ok());
}

TEST_CASE("a store that may not be made is not found, and no folder appears") {
  const Folder folder("none");
  auto o = options();
  o.create = false;
  CHECK(Store::open(folder.file(), o).status().code() == Code::NotFound);
  CHECK_FALSE(fs::exists(folder.path));
}

TEST_CASE("a struck entry stays struck after opening again") {
  const Folder folder("struck");
  std::uint64_t before = 0;
  {
    Store store = opened(folder.file());
    add_two_yards(store);
    const engine::EntryStruck strike{{store.device(), 3}, "counted twice"};
    REQUIRE(store.append(store.next(stamp(2), strike)).ok());
    CHECK(store.farm().colonies.empty());
    before = engine::state_hash(store.farm());
  }
  CHECK(engine::state_hash(opened(folder.file()).farm()) == before);
}

}  // namespace store_test
