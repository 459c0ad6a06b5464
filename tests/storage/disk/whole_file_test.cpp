#include "storage/disk/whole_file.h"

#include <doctest/doctest.h>

#include "tests/support/journal_fixture.h"
#include "tests/support/sync_watch.h"

namespace whole_file_test {

TEST_CASE("a whole file is flushed before it gets its name, and its folder after that") {
  const fixture::Folder folder;
  const std::string file = folder / "register.csv", in = std::filesystem::path(file).parent_path();
  bool content_first = false, named = false;
  {
    const SyncWatch watch([&](const std::string& path) {
      const bool there = std::filesystem::exists(file);
      if (path.starts_with(file) && !there) content_first = true;
      if (path == in && there) named = content_first;
    });
    REQUIRE(storage::write_whole_file(file, "one").ok());
  }
  CHECK(named);
  CHECK(storage::read_whole_file(file, 10).value() == "one");
}

TEST_CASE("a file that cannot be written leaves what was there") {
  const fixture::Folder folder;
  const std::string file = folder / "register.csv";
  REQUIRE(storage::write_whole_file(file, "one").ok());
  REQUIRE(storage::write_whole_file(file, "two").ok());
  CHECK(storage::read_whole_file(file, 10).value() == "two");
  CHECK(storage::read_whole_file(file, 2).status().code() == engine::Code::BadInput);
  CHECK_FALSE(storage::write_whole_file(file + "/below", "three").ok());
  CHECK(storage::read_whole_file(file, 10).value() == "two");
}

}  // namespace whole_file_test
