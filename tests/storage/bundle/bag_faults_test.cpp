// A stick that is full, read-only, pulled or lying, at every single file operation of a write.
#include <doctest/doctest.h>

#include "storage/disk/media_errors.h"
#include "tests/support/bag_fixture.h"

namespace bag_faults_test {

using namespace bags;
using engine::Code;
using storage::write_bag;

namespace {

struct Fault {
  std::string name;
  int err;
  Code want;
  std::string words;
};
const Fault kFaults[] = {
    {"full", ENOSPC, Code::Full, "the stick is full"},
    {"pulled", ENODEV, Code::Gone, "the stick was pulled"},
    {"not answering", EIO, Code::Gone, "put the stick back and write again"},
    {"read-only", EROFS, Code::ReadOnly, "the stick is read-only"},
};

int operations_of_a_good_write() {
  const TempFolder t;
  WatchedFiles files([](int) { return 0; });
  REQUIRE(write_bag(files, evening(t.path())).ok());
  return files.count();
}

bool one_clear_line(const std::string& text, const std::string& words) {
  return text.find(words) != std::string::npos && text.find('\n') == std::string::npos &&
         text.size() < 300;
}

// After whatever happened: writing again succeeds and leaves one whole bundle, no part.
void check_second_try(const std::string& parent) {
  const auto again = write_bag(evening(parent));
  REQUIRE_MESSAGE(again.ok(), again.status().message());
  CHECK(names_in(parent) == std::vector<std::string>{again.value().name});
  CHECK(storage::check_bag(again.value().folder).value().whole());
}

bool skipped(const SmallMedium& medium) {
  if (!medium.mounted()) MESSAGE("SKIPPED: mounting a medium is not permitted here");
  return !medium.mounted();
}

}  // namespace

TEST_CASE("the n-th operation fails once: a clear line, nothing left, and again it works") {
  const int all = operations_of_a_good_write();
  REQUIRE(all > 60);
  const int listing = 4;  // of left-overs to clean: its failure is no reason to stop
  for (const Fault& fault : kFaults)
    for (int n = 1; n <= all; ++n) {
      INFO(fault.name << " at operation " << n << " of " << all);
      const TempFolder t;
      WatchedFiles files([&](int now) { return now == n ? fault.err : 0; });
      const auto done = write_bag(files, evening(t.path()));
      CHECK(done.ok() == (n == listing));
      if (!done.ok()) {
        CHECK(done.status().code() == fault.want);
        CHECK_MESSAGE(one_clear_line(done.status().message(), fault.words),
                      done.status().message());
        CHECK(names_in(t.path()).empty());
      }
      check_second_try(t.path());
    }
}

TEST_CASE("from the n-th operation on all fail: never half a bundle under the final name") {
  const int all = operations_of_a_good_write();
  for (const Fault& fault : kFaults)
    for (int n = 1; n <= all; ++n) {
      INFO(fault.name << " from operation " << n << " of " << all);
      const TempFolder t;
      WatchedFiles files([&](int now) { return now >= n ? fault.err : 0; });
      const auto done = write_bag(files, evening(t.path()));
      REQUIRE_FALSE(done.ok());
      CHECK(done.status().code() == fault.want);
      CHECK(one_clear_line(done.status().message(), fault.words));
      for (const std::string& name : names_in(t.path()))
        if (!name.starts_with(".part-"))
          CHECK(storage::check_bag(t.path() + "/" + name).value().whole());
      check_second_try(t.path());
    }
}

TEST_CASE("a fault while the bundle that is there is read again never harms it") {
  const TempFolder t;
  const auto first = write_bag(evening(t.path()));
  REQUIRE(first.ok());
  WatchedFiles counting([](int) { return 0; });
  REQUIRE(write_bag(counting, evening(t.path())).ok());
  for (int n = 1; n <= counting.count(); ++n) {
    INFO("operation " << n);
    WatchedFiles files([&](int now) { return now == n ? EIO : 0; });
    CHECK(write_bag(files, evening(t.path())).status().code() == Code::Gone);
    CHECK(names_in(t.path()) == std::vector<std::string>{first.value().name});
  }
  CHECK(storage::check_bag(first.value().folder).value().whole());
}

TEST_CASE("a stick that gives back other bytes is not trusted") {
  class Lying : public WatchedFiles {
   public:
    Lying() : WatchedFiles([](int) { return 0; }) {}
    int read(int fd, char* to, std::size_t most, std::size_t& got) override {
      const int err = WatchedFiles::read(fd, to, most, got);
      if (got > 1000) to[999] ^= 1;
      return err;
    }
  } files;
  const TempFolder t;
  const auto done = write_bag(files, evening(t.path()));
  CHECK(done.status().code() == Code::Damaged);
  CHECK(done.status().message().find("do not trust it") != std::string::npos);
  CHECK(names_in(t.path()).empty());
}

TEST_CASE("a medium of 512 KiB is found full before anything is written, with the numbers") {
  const SmallMedium m;
  if (skipped(m)) return;
  auto big = evening(m.path());
  big.payload[2].bytes.resize(1'200'000, 'g');
  const auto done = write_bag(big);
  CHECK(done.status().code() == Code::Full);
  CHECK_MESSAGE(done.status().message() ==
                    "the stick is full: 1.4 MB needed, 0.5 MB free; free some space or use "
                    "another stick",
                done.status().message());
  CHECK(names_in(m.path()).empty());
  check_second_try(m.path());  // the small bundle fits
}

TEST_CASE("a medium that says it has room and then runs full leaves nothing behind") {
  class Boasting : public WatchedFiles {
   public:
    Boasting() : WatchedFiles([](int) { return 0; }) {}
    int room(const std::string& p, storage::Room& out) override {
      const int err = WatchedFiles::room(p, out);
      if (asked_++ == 0) out.free += 100'000'000;
      return err;
    }
    int asked_ = 0;
  } files;
  const SmallMedium m;
  if (skipped(m)) return;
  auto big = evening(m.path());
  big.payload[2].bytes.resize(1'200'000, 'g');
  const auto done = write_bag(files, big);
  CHECK(done.status().code() == Code::Full);
  CHECK_MESSAGE(done.status().message().find("1.4 MB needed, 0.5 MB free") != std::string::npos,
                done.status().message());
  CHECK(names_in(m.path()).empty());
  check_second_try(m.path());
}

TEST_CASE("a medium with room but no more files says so") {
  const SmallMedium m("size=4m,nr_inodes=5");
  if (skipped(m)) return;
  const auto done = write_bag(evening(m.path()));
  CHECK(done.status().code() == Code::Full);
  CHECK_MESSAGE(done.status().message().find("takes no more files") != std::string::npos,
                done.status().message());
  CHECK(names_in(m.path()).empty());
}

TEST_CASE("a read-only medium is named; a bundle that is on it already still counts") {
  SmallMedium m;
  if (skipped(m)) return;
  REQUIRE(write_bag(evening(m.path())).ok());
  REQUIRE(m.make_read_only());
  auto other = evening(m.path());
  other.day = "2026-08-15";
  const auto done = write_bag(other);
  CHECK(done.status().code() == Code::ReadOnly);
  CHECK(done.status().message().find("slide its lock switch") != std::string::npos);
  const auto again = write_bag(evening(m.path()));
  REQUIRE_MESSAGE(again.ok(), again.status().message());
  CHECK(again.value().already_there);
}

TEST_CASE("a stick pulled before any operation: never a bundle on the tablet's own disk") {
  const int all = operations_of_a_good_write();
  for (int n = 1; n <= all; ++n) {
    INFO("pulled before operation " << n << " of " << all);
    SmallMedium m;
    if (skipped(m)) return;
    auto request = evening(m.path());
    storage::FileInfo info;
    REQUIRE(storage::DiskFiles().info(m.path(), info) == 0);
    request.device = info.device;
    WatchedFiles files([&](int now) {
      if (now == n) m.pull();
      return 0;
    });
    const auto done = write_bag(files, request);
    CHECK(done.status().code() == Code::Gone);
    CHECK_MESSAGE(one_clear_line(done.status().message(), "the stick was pulled"),
                  done.status().message());
    CHECK(names_in(m.path()).empty());  // what the stick's place on the tablet's disk holds now
  }
}

}  // namespace bag_faults_test
