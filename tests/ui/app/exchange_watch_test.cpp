#include "ui/app/exchange_watch.h"

#include <doctest/doctest.h>

#include "tests/support/bag_fixture.h"
#include "tests/support/evening.h"

namespace exchange_watch_test {

using engine::Ms;

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

}  // namespace

TEST_CASE("in a walk the exchange folder waits, and asks for no frame before its next minute") {
  const bags::TempFolder t;
  const std::string path = t.path() + "/farm.journal";
  storage::Store store = store_of(evening::on_a_walk(2, 1), path);
  ui::ExchangeWatch watch(path);
  REQUIRE(watch.use(t.path()).ok());
  CHECK_FALSE(watch.turn(store, minute(1)));
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
    CHECK(watch.turn(store, minute(1)));
    CHECK_FALSE(watch.turn(store, minute(1)));
    CHECK_FALSE(watch.seen().failed);
  }
  ui::ExchangeWatch again(path);
  CHECK(again.seen().folder == t.path());
  REQUIRE(again.use("").ok());
  CHECK_FALSE(ui::ExchangeWatch(path).next());
}

}  // namespace exchange_watch_test
