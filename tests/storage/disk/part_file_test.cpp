#include "storage/disk/part_file.h"

#include <doctest/doctest.h>
#include <sys/stat.h>
#include <sys/wait.h>

#include <csignal>

#include "tests/support/bag_fixture.h"

namespace part_file_test {

using namespace bags;
using storage::PartFile;

namespace {

PartFile made(const std::string& name) {
  auto part = PartFile::make(name, PartFile::Readers::Owner);
  REQUIRE_MESSAGE(part.ok(), part.status().message());
  return std::move(part).value();
}

mode_t mode_of(const std::string& path) {
  struct stat s {};
  REQUIRE(::lstat(path.c_str(), &s) == 0);
  return s.st_mode & 0777;
}

}  // namespace

TEST_CASE("a part that is dropped leaves nothing, one that is finished only its name") {
  const TempFolder t;
  {
    PartFile part = made(t.path() + "/copy");
    REQUIRE(part.write("half").ok());
    CHECK(names_in(t.path()).size() == 1);
    CHECK_FALSE(std::filesystem::exists(t.path() + "/copy"));
  }
  CHECK(names_in(t.path()).empty());
  PartFile part = made(t.path() + "/copy");
  REQUIRE(part.write("whole").ok());
  REQUIRE(part.finish(PartFile::Over::Nothing).ok());
  CHECK(names_in(t.path()) == std::vector<std::string>{"copy"});
  CHECK(slurp(t.path() + "/copy") == "whole");
}

TEST_CASE("over nothing means over nothing") {
  const TempFolder t;
  spill(t.path() + "/copy", "mine");
  {
    PartFile part = made(t.path() + "/copy");
    REQUIRE(part.write("new").ok());
    CHECK(part.finish(PartFile::Over::Nothing).code() == engine::Code::BadInput);
  }
  CHECK(slurp(t.path() + "/copy") == "mine");
  CHECK(names_in(t.path()).size() == 1);
}

TEST_CASE(
    "what a killed writer left goes with the next one; what is written now, and is not ours, "
    "stays") {
  const TempFolder t;
  const pid_t writer = ::fork();
  if (writer == 0) {
    auto part = PartFile::make(t.path() + "/copy", PartFile::Readers::Owner);
    spill(t.path() + "/copy.part-" + std::to_string(::getpid()) + "-journal", "beside");
    ::raise(SIGKILL);
  }
  int status = 0;
  REQUIRE(::waitpid(writer, &status, 0) == writer);
  REQUIRE(names_in(t.path()).size() == 2);
  const PartFile other = made(t.path() + "/copy2");  // under way, for another name
  spill(t.path() + "/copy.part-notes", "a keeper's own");
  std::filesystem::create_symlink(t.path() + "/copy.part-notes", t.path() + "/copy.part-1");
  PartFile part = made(t.path() + "/copy");
  REQUIRE(part.finish(PartFile::Over::Nothing).ok());
  CHECK(names_in(t.path()).size() == 4);
  CHECK(std::filesystem::is_symlink(t.path() + "/copy.part-1"));
  CHECK(slurp(t.path() + "/copy.part-notes") == "a keeper's own");
  CHECK(std::filesystem::exists(other.path()));
}

TEST_CASE("a part for its owner has mode 0600 whatever the umask") {
  const TempFolder t;
  for (const mode_t mask : {0, 022, 0277, 0777}) {
    const mode_t before = ::umask(mask);
    auto part = PartFile::make(t.path() + "/notes", PartFile::Readers::Owner);
    ::umask(before);
    REQUIRE(part.ok());
    CHECK(mode_of(part.value().path()) == 0600);
  }
}

}  // namespace part_file_test
