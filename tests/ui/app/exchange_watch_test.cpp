#include "ui/app/exchange_watch.h"

#include <doctest/doctest.h>

#include <chrono>
#include <condition_variable>
#include <filesystem>
#include <functional>
#include <memory>
#include <mutex>
#include <thread>

#include "engine/farm/farm.h"
#include "tests/support/bag_fixture.h"
#include "tests/support/evening.h"

namespace exchange_watch_test {

using engine::Ms;
using namespace std::chrono_literals;

namespace {

// The keeper's log as a store on a disk.
storage::Store store_of(const evening::Keeper& k, const std::string& path) {
  storage::JournalOptions options;
  options.device = engine::text(evening::device());
  options.ballast_bytes = 0;
  auto store = storage::Store::open(path, options);
  REQUIRE_MESSAGE(store.ok(), store.status().message());
  for (const engine::Entry& e : k.farm.log) REQUIRE(store.value().append(e.event).ok());
  return std::move(store).value();
}

engine::Stamp minute(int n) {
  engine::Stamp s = evening::at(3600);
  s.since_boot = Ms{n * 60'000};
  return s;
}

// Opens once, for all who wait.
class Gate {
 public:
  void open() {
    const std::scoped_lock hold(lock_);
    open_ = true;
    rung_.notify_all();
  }
  void pass() {
    std::unique_lock hold(lock_);
    ++waited_;
    rung_.notify_all();
    rung_.wait(hold, [this] { return open_; });
  }
  // Until somebody waits before the gate.
  void await() {
    std::unique_lock hold(lock_);
    REQUIRE(rung_.wait_for(hold, 20s, [this] { return waited_ > 0; }));
  }

 private:
  std::mutex lock_;
  std::condition_variable rung_;
  bool open_ = false;
  int waited_ = 0;
};

// A file system that does not answer before the gate is opened.
class StalledFiles : public storage::DiskFiles {
 public:
  explicit StalledFiles(std::shared_ptr<Gate> gate) : gate_(std::move(gate)) {}
  int list(const std::string& path, std::vector<std::string>& out) override {
    gate_->pass();
    return DiskFiles::list(path, out);
  }

 private:
  std::shared_ptr<Gate> gate_;
};

ui::ExchangeWatch::MakeFiles stalled(const std::shared_ptr<Gate>& gate) {
  return [gate] { return std::make_unique<StalledFiles>(gate); };
}

// A pass from its beginning to its end.
void look(ui::ExchangeWatch& watch, storage::Store& store, int at_minute) {
  CHECK_FALSE(watch.turn(store, minute(at_minute)));
  REQUIRE(watch.busy());
  watch.settle(store);
  CHECK(watch.turn(store, minute(at_minute)));
  CHECK_FALSE(watch.seen().failed);
}

double seconds_of(const std::function<void()>& work) {
  const auto from = std::chrono::steady_clock::now();
  work();
  return std::chrono::duration<double>(std::chrono::steady_clock::now() - from).count();
}

}  // namespace

TEST_CASE("in a walk the exchange folder waits, and asks for no frame before its next minute") {
  const bags::TempFolder t;
  const std::string path = t.path() + "/farm.journal";
  storage::Store store = store_of(evening::on_a_walk(2, 1), path);
  ui::ExchangeWatch watch(path);
  REQUIRE(watch.use(t.path()).ok());
  CHECK_FALSE(watch.turn(store, minute(1)));
  CHECK_FALSE(watch.busy());
  CHECK(watch.next() == Ms{120'000});
  CHECK(watch.seen().when.empty());
}

TEST_CASE(
    "a folder that is chosen is looked into at once, then once a minute, also after a start") {
  const bags::TempFolder t;
  const std::string path = t.path() + "/farm.journal";
  storage::Store store = store_of(evening::keeper_with(2, 1), path);
  {
    ui::ExchangeWatch watch(path);
    CHECK_FALSE(watch.next());
    REQUIRE(watch.use(t.path()).ok());
    look(watch, store, 1);
    CHECK_FALSE(watch.turn(store, minute(1)));
    CHECK_FALSE(watch.busy());
    CHECK_FALSE(watch.turn(store, minute(2)));
    CHECK(watch.busy());
  }
  ui::ExchangeWatch again(path);
  CHECK(again.seen().folder == t.path());
  REQUIRE(again.use("").ok());
  CHECK_FALSE(ui::ExchangeWatch(path).next());
}

TEST_CASE("a folder that does not answer holds no frame up, is said, and is left at the end") {
  const bags::TempFolder t;
  const std::string path = t.path() + "/farm.journal";
  storage::Store store = store_of(evening::keeper_with(2, 1), path);
  const auto gate = std::make_shared<Gate>();
  auto watch = std::make_unique<ui::ExchangeWatch>(path, stalled(gate));
  REQUIRE(watch->use(t.path()).ok());
  CHECK(seconds_of([&] { watch->turn(store, minute(1)); }) < 1);
  gate->await();
  const double frames = seconds_of([&] {
    for (int n = 0; n < 100; ++n) watch->turn(store, minute(1));
  });
  CHECK(frames < 1);
  CHECK_FALSE(watch->seen().failed);
  watch->turn(store, minute(2));
  CHECK(watch->seen().failed);
  REQUIRE(watch->seen().lines.size() == 1);
  CHECK(watch->seen().lines[0].find("does not answer") != std::string::npos);
  SUBCASE("it answers after all") {
    gate->open();
    watch->settle(store);
    CHECK(watch->turn(store, minute(2)));
    CHECK_FALSE(watch->seen().failed);
  }
  SUBCASE("another folder is chosen") {
    gate->open();
    const std::string other = t.path() + "/other";
    std::filesystem::create_directory(other);
    REQUIRE(watch->use(other).ok());
    look(*watch, store, 3);
    CHECK(watch->seen().folder == other);
  }
  SUBCASE("the program is closed") {
    CHECK(seconds_of([&] { watch.reset(); }) < 10);
    gate->open();
  }
}

TEST_CASE("two tablets meet in a folder, each store changed by its screens alone") {
  const bags::TempFolder t;
  const std::string folder = t.path() + "/shared";
  std::filesystem::create_directory(folder);
  storage::Store one = store_of(evening::keeper_with(2, 1), t.path() + "/one.journal");
  storage::JournalOptions options;
  options.device = "0198a000-0000-7000-8000-0000000000d2";
  options.ballast_bytes = 0;
  auto opened = storage::Store::open(t.path() + "/two.journal", options);
  REQUIRE(opened.ok());
  storage::Store& two = opened.value();
  ui::ExchangeWatch first(t.path() + "/one.journal"), second(t.path() + "/two.journal");
  REQUIRE((first.use(folder).ok() && second.use(folder).ok()));
  look(first, one, 1);
  CHECK_FALSE(second.turn(two, minute(1)));
  std::this_thread::sleep_for(50ms);
  CHECK(two.farm().log.empty());  // nothing without the screens, however long they draw
  second.settle(two);
  CHECK(second.turn(two, minute(1)));
  CHECK(two.farm().log.size() == one.farm().log.size());
  CHECK(engine::state_hash(two.farm()) == engine::state_hash(one.farm()));
}

TEST_CASE("what was read when a walk begins is taken in when it ends") {
  const bags::TempFolder t;
  const std::string path = t.path() + "/farm.journal";
  storage::Store idle = store_of(evening::keeper_with(2, 1), path);
  storage::Store walking = store_of(evening::on_a_walk(2, 1), t.path() + "/walk.journal");
  ui::ExchangeWatch watch(path);
  REQUIRE(watch.use(t.path()).ok());
  CHECK_FALSE(watch.turn(idle, minute(1)));
  // The thread asks for the store; while a walk is under way nobody does its part.
  for (int n = 0; n < 20; ++n) {
    CHECK_FALSE(watch.turn(walking, minute(1)));
    std::this_thread::sleep_for(5ms);
  }
  watch.settle(walking);
  CHECK(watch.busy());
  watch.settle(idle);
  CHECK(watch.turn(idle, minute(1)));
}

}  // namespace exchange_watch_test
