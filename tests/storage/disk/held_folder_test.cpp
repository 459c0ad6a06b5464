#include "storage/disk/held_folder.h"

#include <doctest/doctest.h>

#include <cerrno>

#include "storage/disk/files.h"
#include "tests/support/bag_fixture.h"

namespace held_folder_test {

using namespace bags;

TEST_CASE("below a held folder no link is followed, at no part of a path") {
  const TempFolder t, safe;
  spill(t.path() + "/a/b/file", "mine");
  spill(safe.path() + "/b/file", "theirs");
  std::filesystem::create_directory_symlink(safe.path(), t.path() + "/link");
  storage::DiskFiles files;
  REQUIRE(files.hold(t.path()) == 0);
  int fd = -1;
  CHECK(files.open(t.path() + "/a/b/file", fd) == 0);
  CHECK(files.close(fd) == 0);
  CHECK(files.open(t.path() + "/link/b/file", fd) != 0);
  CHECK(files.remove_file(t.path() + "/link/b/file") != 0);
  CHECK(files.create(t.path() + "/link/new", fd) != 0);
  CHECK(files.make_folder(t.path() + "/link/new") != 0);
  std::vector<std::string> names;
  CHECK(files.list(t.path() + "/link", names) != 0);
  CHECK(files.open(t.path() + "/../x", fd) != 0);
  storage::FileInfo info;
  CHECK(files.info(t.path() + "/link/b/file", info) == 0);
  CHECK(info.kind == storage::FileKind::None);
  CHECK(slurp(safe.path() + "/b/file") == "theirs");
  CHECK(names_in(safe.path()).size() == 1);
}

TEST_CASE("a held folder is the one that was opened, whatever lies at its path now") {
  const TempFolder t;
  spill(t.path() + "/stick/file", "first");
  storage::DiskFiles files;
  REQUIRE(files.hold(t.path() + "/stick") == 0);
  std::filesystem::rename(t.path() + "/stick", t.path() + "/away");
  spill(t.path() + "/stick/file", "second");
  CHECK(files.remove_file(t.path() + "/stick/file") == 0);
  CHECK(slurp(t.path() + "/stick/file") == "second");
  CHECK(names_in(t.path() + "/away").empty());
  storage::FileInfo held, now;
  REQUIRE(files.info(t.path() + "/stick/.", held) == 0);
  REQUIRE(files.leads_to(t.path() + "/stick", now) == 0);
  CHECK(held.inode != now.inode);
}

TEST_CASE("another medium below a held folder is not entered") {
  const TempFolder t;
  std::filesystem::create_directory(t.path() + "/other");
  if (!may_mount() || ::mount("none", (t.path() + "/other").c_str(), "tmpfs", 0, "size=64k") != 0) {
    MESSAGE("SKIPPED: mounting a medium is not permitted here");
    return;
  }
  spill(t.path() + "/other/data/file", "x");
  storage::DiskFiles files;
  REQUIRE(files.hold(t.path()) == 0);
  CHECK(files.remove_file(t.path() + "/other/data/file") == EXDEV);
  CHECK(slurp(t.path() + "/other/data/file") == "x");
  ::umount2((t.path() + "/other").c_str(), MNT_DETACH);
}

}  // namespace held_folder_test
