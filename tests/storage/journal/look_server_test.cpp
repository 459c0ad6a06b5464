// Another program looks at a store that is open: it gets all that was entered until then.
#include "storage/journal/look_server.h"

#include <doctest/doctest.h>

#include <fstream>
#include <thread>

#include "tests/support/bag_fixture.h"
#include "tests/support/journal_fixture.h"

namespace look_server_test {

namespace fs = std::filesystem;
using namespace fixture;
using std::chrono::milliseconds;

namespace {

storage::Journal opened(const std::string& path) {
  auto journal = storage::Journal::open(path, small());
  REQUIRE_MESSAGE(journal.ok(), journal.status().message());
  return std::move(journal).value();
}

storage::LookServer listening(const std::string& path) {
  auto server = storage::LookServer::beside(path);
  REQUIRE_MESSAGE(server.ok(), server.status().message());
  return std::move(server).value();
}

// What somebody gets who asks while `turn` goes on.
template <class Turn>
storage::Result<std::string> asked(const std::string& path, Turn turn) {
  storage::Result<std::string> got(storage::Status(storage::Code::Failed, ""));
  std::atomic<bool> there = false;
  std::thread other([&] {
    got = storage::look_through_open_program(path, milliseconds{2000});
    there = true;
  });
  while (!there) {
    turn();
    std::this_thread::sleep_for(milliseconds{1});
  }
  other.join();
  return got;
}

}  // namespace

TEST_CASE("what is entered while the copy is made is in it; it is whole and cannot be written") {
  const Folder folder;
  const std::string path = folder / "farm.journal";
  storage::Journal journal = opened(path);
  REQUIRE(journal.append_all(records(1, 3000)).ok());
  storage::LookServer server = listening(path);
  std::int64_t last = 3000;
  const auto bytes = asked(path, [&] {
    server.turn(journal);
    if (server.busy()) REQUIRE(journal.append(record(++last)).ok());
  });
  REQUIRE_MESSAGE(bytes.ok(), bytes.status().message());
  auto look = storage::Journal::look(path, bytes.value(), small());
  REQUIRE_MESSAGE(look.ok(), look.status().message());
  CHECK_FALSE(look.value().damage());
  CHECK(look.value().size() > 3000);
  CHECK(look.value().verify().ok());
  const auto copied = all_of(look.value()), all = all_of(journal);
  CHECK(std::equal(copied.begin(), copied.end(), all.begin()));
  CHECK(look.value().append(record(look.value().size() + 1)).code() == storage::Code::Busy);
  CHECK_FALSE(server.busy());
}

TEST_CASE("the copy becomes a backup like any store") {
  const Folder folder;
  const std::string path = folder / "farm.journal";
  storage::Journal journal = opened(path);
  REQUIRE(journal.append_all(records(1, 100)).ok());
  storage::LookServer server = listening(path);
  const auto bytes = asked(path, [&] { server.turn(journal); });
  REQUIRE(bytes.ok());
  auto look = storage::Journal::look(path, bytes.value(), small());
  REQUIRE(look.ok());
  REQUIRE(look.value().backup_to(folder / "copy").ok());
  CHECK(all_of(opened(folder / "copy")) == all_of(journal));
}

TEST_CASE("nobody listens, or listens and says nothing: busy, after a short time") {
  const Folder folder;
  const std::string path = folder / "farm.journal";
  storage::Journal journal = opened(path);
  CHECK(storage::look_through_open_program(path, milliseconds{50}).status().code() ==
        storage::Code::Busy);
  storage::LookServer server = listening(path);
  const auto before = std::chrono::steady_clock::now();
  CHECK(storage::look_through_open_program(path, milliseconds{50}).status().code() ==
        storage::Code::Busy);
  CHECK(std::chrono::steady_clock::now() - before < std::chrono::seconds{2});
  server.turn(journal);  // whoever went away is forgotten
  server.turn(journal);
  CHECK_FALSE(server.busy());
}

TEST_CASE("when the journal goes, who asked is turned away; the socket goes with the server") {
  const Folder folder;
  const std::string path = folder / "farm.journal";
  storage::Journal journal = opened(path);
  REQUIRE(journal.append_all(records(1, 3000)).ok());
  {
    storage::LookServer server = listening(path);
    int turns = 0;
    const auto bytes = asked(path, [&] {
      if (++turns < 3 || !server.busy())
        server.turn(journal);
      else
        server.forget_journal();
    });
    CHECK(bytes.status().code() == storage::Code::Busy);
    CHECK(fs::exists(path + ".look"));
  }
  CHECK_FALSE(fs::exists(path + ".look"));
  CHECK_FALSE(fs::exists(path + ".look-part"));
}

TEST_CASE("only a socket that was left is replaced: a file or a link of that name stays") {
  for (const bool link : {false, true}) {
    const Folder folder;
    const std::string path = folder / "farm.journal";
    std::ofstream(folder / "precious") << "mine";
    if (link)
      fs::create_symlink(folder / "precious", path + ".look");
    else
      std::ofstream(path + ".look") << "mine";
    CHECK_FALSE(storage::LookServer::beside(path).ok());
    CHECK(bags::slurp(folder / "precious") == "mine");
    CHECK(bags::slurp(path + ".look") == "mine");
  }
}

TEST_CASE("a disk that runs full: the line says why, and the store goes on") {
  const bags::SmallMedium medium("size=400k");
  if (!medium.mounted()) {
    MESSAGE("not run: this machine lets nobody mount");
    return;
  }
  const std::string path = medium.path() + "/farm.journal";
  storage::Journal journal = opened(path);
  REQUIRE(journal.append_all(records(1, 100)).ok());
  storage::LookServer server = listening(path);
  std::ofstream(medium.path() + "/filler") << std::string(400'000, 'x');
  const auto bytes = asked(path, [&] { server.turn(journal); });
  CHECK(bytes.status().message().find("no room left") != std::string::npos);
  fs::remove(medium.path() + "/filler");
  CHECK(journal.append(record(101)).ok());
}

}  // namespace look_server_test
