#include "storage/disk/paths.h"

#include <doctest/doctest.h>
#include <sys/stat.h>

#include <algorithm>
#include <filesystem>

#include "tests/support/journal_fixture.h"
#include "tests/support/sync_watch.h"

namespace paths_test {

// XDG base directory specification 0.8: default of XDG_DATA_HOME, relative paths are ignored,
// folders that are made get mode 0700.
TEST_CASE("the store lies where the XDG base directory specification says") {
  struct Row {
    std::string name;
    std::string chosen;
    storage::Environment environment;
    std::string path;
  };
  const Row rows[] = {
      {"home", "", {{"HOME", "/home/k"}}, "/home/k/.local/share/duskwalk/duskwalk.journal"},
      {"data home",
       "",
       {{"HOME", "/home/k"}, {"XDG_DATA_HOME", "/d"}},
       "/d/duskwalk/duskwalk.journal"},
      {"a relative data home is ignored",
       "",
       {{"HOME", "/home/k"}, {"XDG_DATA_HOME", "d"}},
       "/home/k/.local/share/duskwalk/duskwalk.journal"},
      {"an empty data home is unset",
       "",
       {{"HOME", "/home/k"}, {"XDG_DATA_HOME", ""}},
       "/home/k/.local/share/duskwalk/duskwalk.journal"},
      {"our own variable", "", {{"HOME", "/home/k"}, {"DUSKWALK_STORE", "s.j"}}, "s.j"},
      {"the option first", "x.j", {{"DUSKWALK_STORE", "s.j"}}, "x.j"},
  };
  for (const Row& r : rows) {
    INFO(r.name);
    const auto path = storage::store_path(r.chosen, r.environment);
    REQUIRE(path.ok());
    CHECK(path.value() == r.path);
  }
}

TEST_CASE("without a home the keeper is asked for a place") {
  const auto path = storage::store_path("", {});
  CHECK(path.status().code() == engine::Code::NotFound);
  CHECK(path.status().message().find("--store") != std::string::npos);
}

TEST_CASE("folders that are made belong to their owner only") {
  const auto top = std::filesystem::temp_directory_path() / "duskwalk-paths-test";
  std::filesystem::remove_all(top);
  REQUIRE(storage::make_folders_for((top / "a" / "b" / "store").string()).ok());
  REQUIRE(storage::make_folders_for((top / "a" / "b" / "store").string()).ok());
  struct stat info {};
  REQUIRE(stat((top / "a" / "b").c_str(), &info) == 0);
  CHECK((info.st_mode & 0777) == 0700);
  CHECK_FALSE(storage::make_folders_for("/proc/no/such/store").ok());
  CHECK(storage::make_folders_for("here.journal").ok());
  std::filesystem::remove_all(top);
}

TEST_CASE("every folder of a new store is flushed, and the folder it was made in") {
  const fixture::Folder folder;
  const std::string top = std::filesystem::path(folder / "x").parent_path();
  std::vector<std::string> flushed;
  {
    const SyncWatch watch([&](const std::string& path) { flushed.push_back(path); });
    REQUIRE(storage::Journal::open(top + "/a/b/store", fixture::small()).ok());
  }
  for (const std::string& made : {top, top + "/a", top + "/a/b"}) {
    INFO(made);
    CHECK(std::count(flushed.begin(), flushed.end(), made) > 0);
  }
}

}  // namespace paths_test
