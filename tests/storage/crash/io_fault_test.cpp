// I/O errors and a full disk at every n-th call, once and for good, then going on.
#include <doctest/doctest.h>

#include "storage/journal/journal_testing.h"
#include "tests/support/crash_judge.h"

namespace io_fault_test {

using namespace cut;
using storage::Code;
using storage::Journal;

namespace {

constexpr std::int64_t kEvents = 14;
constexpr int kPatience = 3;  // failures until somebody frees space or changes the cable

struct Run {
  std::int64_t acked = 0;
  int failures = 0;
  bool bad_line = false;  // a failure without a line for the keeper

  void failed(const storage::Status& why, Machine& machine) {
    bad_line = bad_line || why.ok() || why.message().empty() || why.code() == Code::BadInput ||
               why.code() == Code::TooNew || why.code() == Code::Busy;
    if (++failures == kPatience) machine.fault = FaultKind::None;
  }
};

// Opens, appends until all events are in, tries again after every failure; `reopens`: with a fresh
// journal. False when it does not get through at all.
bool work(Machine& machine, bool reopens, Run& run) {
  const storage::JournalTesting testing{false, 8};
  for (int tries = 0; tries < 20; ++tries) {
    auto journal = Journal::open(kStore, on("cut", &testing));
    if (!journal.ok()) {
      run.failed(journal.status(), machine);
      continue;
    }
    if (journal.value().size() < run.acked && !journal.value().damage()) return false;
    for (int more = 0; more < 40 && journal.value().size() < kEvents; ++more) {
      const auto done = journal.value().append(fixture::record(journal.value().size() + 1));
      if (done.ok()) run.acked = journal.value().size();
      if (!done.ok()) run.failed(done, machine);
      if (!done.ok() && (reopens || journal.value().damage())) break;
    }
    if (journal.value().size() == kEvents && !journal.value().damage()) return true;
  }
  return false;
}

struct Sum {
  int runs = 0, struck = 0;
  std::vector<std::string> bad;
};

// One run with the fault at call n; false when the run ended before the fault came.
bool strike(FaultKind kind, bool for_good, bool reopens, int n, Sum& sum) {
  Machine machine;
  Mount mount("cut", machine);
  machine.fault = kind;
  machine.fault_in = n;
  machine.for_good = for_good;
  Run run;
  const bool through = work(machine, reopens, run);
  machine.fault = FaultKind::None;
  const auto journal = Journal::open(kStore, on("cut"));
  const bool whole = journal.ok() && judge(journal.value(), run.acked, kEvents) == Verdict::Ok &&
                     journal.value().verify().ok();
  ++sum.runs;
  sum.struck += machine.struck;
  if (!through || !whole || run.bad_line) sum.bad.push_back(fmt::format("call {}", n));
  return machine.struck;
}

}  // namespace

TEST_CASE("an error at any call, once or for good, loses nothing and has a clear line") {
  for (const FaultKind kind : {FaultKind::IoError, FaultKind::Full}) {
    for (const bool for_good : {false, true}) {
      for (const bool reopens : {false, true}) {
        Sum sum;
        const int step = kSanitized ? 7 : 1;
        for (int n = 1; strike(kind, for_good, reopens, n, sum); n += step) {
        }
        const std::string name =
            fmt::format("{} {}, {}", kind == FaultKind::Full ? "disk full" : "I/O error",
                        for_good ? "for good" : "once", reopens ? "reopened" : "going on");
        MESSAGE(name << ": " << sum.struck << " points struck, " << sum.bad.size() << " bad");
        INFO(name << (sum.bad.empty() ? "" : ", first bad: " + sum.bad.front()));
        CHECK(sum.bad.empty());
        CHECK(sum.struck > 20 / step);
      }
    }
  }
}

TEST_CASE("a full disk costs the ballast first, then a clear line, never an event") {
  Machine machine;
  Mount mount("cut", machine);
  machine.capacity = 700 << 10;
  storage::JournalOptions options = on("cut");
  options.ballast_bytes = 256 << 10;
  auto journal = Journal::open(kStore, options);
  REQUIRE(journal.ok());
  std::int64_t spent_at = 0;
  storage::Status last;
  while (last.ok() && journal.value().size() < 400) {
    last = journal.value().append(fixture::record(journal.value().size() + 1));
    if (spent_at == 0 && journal.value().ballast_spent()) spent_at = journal.value().size();
  }
  CHECK(last.code() == Code::Full);
  const std::int64_t full_at = journal.value().size();
  MESSAGE("ballast spent at event " << spent_at << ", disk full at event " << full_at);
  CHECK(spent_at > 10);
  CHECK(full_at > spent_at + 10);
  CHECK_FALSE(journal.value().restore_ballast());
  machine.capacity = 16 << 20;  // somebody freed space
  while (journal.value().size() < 390) {
    REQUIRE(journal.value().append(fixture::record(journal.value().size() + 1)).ok());
  }
  CHECK(judge(journal.value(), 390, 390) == Verdict::Ok);
  CHECK((journal.value().restore_ballast() && !journal.value().ballast_spent()));
}

TEST_CASE("a disk that is full from the start says so, and opens what is there") {
  Machine machine;
  Mount mount("cut", machine);
  machine.capacity = 0;
  CHECK(Journal::open(kStore, on("cut")).status().code() == Code::Full);
  machine.capacity = std::numeric_limits<std::size_t>::max();
  {
    auto journal = Journal::open(kStore, on("cut"));
    REQUIRE(journal.ok());
    REQUIRE(journal.value().append_all(fixture::records(1, 30)).ok());
    machine.dead = true;  // leaves a log that wants to be folded in
  }
  machine.dead = false;
  machine.capacity = machine.used();
  auto journal = Journal::open(kStore, on("cut"));
  REQUIRE(journal.ok());
  CHECK(judge(journal.value(), 30, 30) == Verdict::Ok);
}

TEST_CASE("a write-protected store is read, not called damaged, and not written") {
  Machine machine;
  Mount mount("cut", machine);
  {
    auto journal = Journal::open(kStore, on("cut"));
    REQUIRE(journal.ok());
    REQUIRE(journal.value().append_all(fixture::records(1, 30)).ok());
    machine.dead = true;
  }
  machine.dead = false;
  machine.read_only = true;
  const Files before = machine.content();
  auto journal = Journal::open(kStore, on("cut"));
  REQUIRE(journal.ok());
  CHECK(judge(journal.value(), 30, 30) == Verdict::Ok);
  CHECK(journal.value().verify().ok());
  CHECK(journal.value().append(fixture::record(31)).code() == Code::ReadOnly);
  CHECK(machine.content() == before);
}

}  // namespace io_fault_test
