// What is set on a tablet stays with it: beside other tablets' bundles, and under a new id.
#include "storage/store/kept_setup.h"

#include <doctest/doctest.h>

#include <filesystem>

#include "engine/farm/setups.h"
#include "storage/journal/backup.h"
#include "storage/register/register_files.h"
#include "tests/support/journal_fixture.h"

namespace kept_setup_test {

namespace fs = std::filesystem;
using namespace fixture;

namespace {

engine::DeviceId id_of(const std::string& device) { return {*engine::uuid_from_text(device)}; }

engine::Stamp at(int minute) {
  engine::Stamp s;
  s.at = engine::Utc{engine::Ms{1'780'000'000'000 + minute * std::int64_t{60'000}}};
  return s;
}

storage::Store open(const std::string& path, const std::string& device = kTablet) {
  auto store = storage::Store::open(path, small(device));
  REQUIRE_MESSAGE(store.ok(), store.status().message());
  return std::move(store).value();
}

void enter(storage::Store& store, int minute, engine::Body body) {
  const auto saved = store.append(store.next(at(minute), std::move(body)));
  REQUIRE_MESSAGE(saved.ok(), saved.message());
}

// With a name and a dose.
engine::SetupChanged setup(const std::string& name, int mg) {
  engine::LabelRules label;
  label.product = "oxalic acid";
  label.per_brood_box = {mg};
  engine::SetupChanged change;
  change.operator_name = name;
  change.rules = label;
  return change;
}

}  // namespace

TEST_CASE(
    "another tablet's bundle changes nothing that is set here, nor who exports the register") {
  Folder folder;
  storage::Store one = open(folder / "one.journal");
  enter(one, 0, setup("A. Example", 2000));
  {
    storage::Store other = open(folder / "other.journal", kOther);
    enter(other, 5, setup("B. Example", 1000));
    REQUIRE(one.merge(all_of(other.journal())).ok());
  }
  const auto mine = [](const storage::Store& store) {
    CHECK(store.farm().setup.operator_name == "A. Example");
    REQUIRE(store.farm().setup.rules);
    CHECK(store.farm().setup.rules->per_brood_box.mg == 2000);
    CHECK(storage::head_of(store.farm(), {}, "").exported_by == "A. Example");
    CHECK(engine::offers(store.farm()).size() == 1);
  };
  mine(one);
  enter(one, 10, engine::NoteWritten{{}, {}, "after it"});
  mine(one);
  { const storage::Store closed = std::move(one); }
  mine(open(folder / "one.journal"));
}

TEST_CASE("a store whose copy was written on keeps its setup under its new id") {
  Folder folder;
  const std::string path = folder / "one.journal", copy = folder / "copy.journal";
  {
    storage::Store store = open(path);
    enter(store, 0, setup("A. Example", 2000));
  }
  fs::copy_file(path, copy);
  storage::Store one = open(path), other = open(copy);
  enter(one, 1, engine::NoteWritten{{}, {}, "here"});
  enter(other, 2, setup("B. Example", 1000));
  const storage::KeptSetup before(one);
  REQUIRE(one.merge(all_of(other.journal())).ok());
  REQUIRE(one.device() != id_of(kTablet));
  REQUIRE(before.say_again(one, at(10)).ok());
  CHECK(one.farm().setup.operator_name == "A. Example");
  CHECK(one.farm().setup.rules->per_brood_box.mg == 2000);
  const auto entries = one.farm().log.size();
  REQUIRE(before.say_again(one, at(11)).ok());
  CHECK(one.farm().log.size() == entries);  // once
}

TEST_CASE("a store made from a backup can say again what was set on the tablet it is of") {
  Folder folder;
  {
    storage::Store store = open(folder / "one.journal");
    enter(store, 0, setup("A. Example", 2000));
    REQUIRE(store.journal().backup_to(folder / "backup").ok());
  }
  const auto restored = storage::restore_backup(folder / "backup", folder / "new.journal", kThird);
  REQUIRE(restored.ok());
  CHECK(restored.value().was == kTablet);
  storage::Store store = open(folder / "new.journal");
  CHECK(store.farm().setup.operator_name.empty());
  REQUIRE(storage::KeptSetup(store, id_of(restored.value().was)).say_again(store, at(10)).ok());
  CHECK(store.farm().setup.operator_name == "A. Example");
  CHECK(engine::offers(store.farm()).empty());
}

}  // namespace kept_setup_test
