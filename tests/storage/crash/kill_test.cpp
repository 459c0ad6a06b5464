// A writer killed at random moments: what it acknowledged is there.
#include <doctest/doctest.h>
#include <fcntl.h>
#include <signal.h>
#include <sys/wait.h>
#include <unistd.h>

#include <random>

#include "tests/support/crash_judge.h"

namespace kill_test {

namespace fs = std::filesystem;

namespace {

struct Killed {
  std::int64_t acked = 0;
  bool by_us = false;  // false: the writer gave up by itself
};

// Starts the writer on `store` and kills it after so many microseconds, counted from its start or
// from its first word; gives the last number heard.
Killed run_and_kill(const std::string& store, bool from_start, std::uint_fast32_t microseconds) {
  int ends[2];
  REQUIRE(::pipe2(ends, O_CLOEXEC) == 0);
  const pid_t child = ::fork();
  REQUIRE(child >= 0);
  if (child == 0) {
    ::dup2(ends[1], STDOUT_FILENO);
    ::execl(JOURNAL_WRITER, JOURNAL_WRITER, store.c_str(), nullptr);
    ::_exit(127);
  }
  ::close(ends[1]);
  Killed result;
  std::int64_t seq = 0;
  if (!from_start && ::read(ends[0], &seq, sizeof seq) == sizeof seq) result.acked = seq;
  ::usleep(static_cast<useconds_t>(microseconds));
  ::kill(child, SIGKILL);
  while (::read(ends[0], &seq, sizeof seq) == sizeof seq) result.acked = seq;
  ::close(ends[0]);
  int status = 0;
  ::waitpid(child, &status, 0);
  result.by_us = WIFSIGNALED(status) && WTERMSIG(status) == SIGKILL;
  return result;
}

std::int64_t wrong_events(const storage::Journal& journal) {
  std::int64_t wrong = 0, n = 0;
  storage::Hash prev{};
  for (const storage::Sealed& s : fixture::all_of(journal)) {
    const storage::Sealed want = storage::seal(fixture::record(++n), prev);
    wrong += s != want;
    prev = want.hash;
  }
  return wrong;
}

void copy_store(const std::string& from, const std::string& to) {
  for (const std::string end : {"", "-wal", ".tip"}) {
    fs::remove(to + end);
    if (fs::exists(from + end)) fs::copy_file(from + end, to + end);
  }
}

}  // namespace

TEST_CASE("a writer killed at random moments, 200 times, loses nothing it acknowledged") {
  constexpr int kRounds = 200;
  std::mt19937 random(1917);
  std::int64_t acked = 0, events = 0, kills = 0;
  std::unique_ptr<fixture::Folder> folder;
  for (int round = 0; round < kRounds; ++round) {
    if (round % 20 == 0) folder = std::make_unique<fixture::Folder>(), events += acked, acked = 0;
    const std::string store = *folder / "store", copy = *folder / "copy";
    const Killed killed = run_and_kill(store, round % 4 == 0, random() % 40000);
    acked = std::max(acked, killed.acked);
    kills += killed.by_us;
    // Every other time the writer itself must go on from what the killed one left.
    if (round % 2 == 0) copy_store(store, copy);
    if (!fs::exists(store)) continue;
    const auto journal = storage::Journal::open(round % 2 == 0 ? copy : store, fixture::small());
    REQUIRE(journal.ok());
    INFO("round " << round << (journal.value().damage() ? journal.value().damage()->line : ""));
    REQUIRE_FALSE(journal.value().damage());
    REQUIRE(journal.value().size() >= acked);
    REQUIRE(wrong_events(journal.value()) == 0);
    acked = journal.value().size();
  }
  MESSAGE(kills << " kills, " << events + acked << " events");
  CHECK(kills == kRounds);
  CHECK(events + acked > kRounds / 4);
}

}  // namespace kill_test
