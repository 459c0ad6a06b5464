// Writes what tests/storage/fixtures/ keeps of a version: a store, its tip, a checkpoint, a bundle.
//   record_store FOLDER      prints the state hash; fixtures/README.md says when and how
#define DOCTEST_CONFIG_IMPLEMENT
#include <doctest/doctest.h>

#include <cstdio>

#include "storage/bundle/bag.h"
#include "storage/bundle/day_bundle.h"
#include "storage/store/store.h"
#include "tests/support/register_fixture.h"

namespace {

storage::JournalOptions options() {
  storage::JournalOptions o;
  o.device = engine::text(fixture::kTabletOfRegister);
  o.ballast_bytes = 0;
  o.checkpoint_from = 1;
  return o;
}

bool record(const std::string& path) {
  auto store = storage::Store::open(path, options());
  if (!store.ok()) return false;
  for (const engine::Entry& e : fixture::evening().farm.log)
    if (!store.value().append(e.event).ok()) return false;
  return true;
}

bool bundle(const storage::Store& store, const std::string& parent) {
  std::vector<storage::Sealed> records;
  (void)store.journal().replay([&](const storage::Sealed& s) { records.push_back(s); });
  storage::BagRequest request;
  request.parent = parent;
  request.device_short = "000000d1";
  request.day = request.bagging_date = "2026-08-16";
  for (auto& [path, bytes] : storage::payload_of_day(store.farm(), records, std::nullopt))
    request.payload.push_back({path, std::move(bytes)});
  return storage::write_bag(request).ok();
}

}  // namespace

int main(int count, char** words) {
  if (count != 2) return 2;
  doctest::Context context;  // the fixture's REQUIREs need one
  context.setAsDefaultForAssertsOutOfTestCases();
  const std::string folder = words[1], path = folder + "/farm.journal";
  if (!record(path)) return 1;
  const auto store = storage::Store::open(path, options());  // leaves the checkpoint
  if (!store.ok() || !bundle(store.value(), folder)) return 1;
  std::printf("%016llx\n",
              static_cast<unsigned long long>(engine::state_hash(store.value().farm())));
  return 0;
}
