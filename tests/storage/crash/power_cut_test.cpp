// Power cuts at every step of the journal's real commit path, with every kind of damage. The
// negative controls must turn red: they show that the harness can see a loss.
#include <doctest/doctest.h>

#include "storage/journal/journal_testing.h"
#include "tests/support/crash_judge.h"

namespace power_cut_test {

using namespace cut;
using storage::Journal;

namespace {

struct Tally {
  std::int64_t cuts = 0, unopened = 0, corrupt = 0, lost = 0;

  void add(Verdict v) {
    ++cuts;
    unopened += v == Verdict::CannotOpen;
    corrupt += v == Verdict::Corrupt;
    lost += v == Verdict::Lost;
  }
  [[nodiscard]] std::int64_t red() const { return unopened + corrupt + lost; }
};

// Appends up to event `to`, one by one and now and then four at once; tells the trace what was
// attempted and what was acknowledged.
void append_to(Journal& journal, Machine& machine, std::int64_t to) {
  while (journal.size() < to) {
    const std::int64_t next = journal.size() + 1;
    const std::int64_t last = next % 7 == 0 ? std::min(next + 3, to) : next;
    machine.note({Op::Attempt, {}, last});
    if (!journal.append_all(fixture::records(next, last)).ok()) return;
    machine.note({Op::Ack, {}, last});
  }
}

// A life in three sessions: the first is killed, the second closed, the third goes on.
void live(Mount& mount, Machine& machine, const storage::JournalTesting& testing,
          std::int64_t events) {
  mount.use(machine);
  machine.recording = true;
  for (int session = 1; session <= 3; ++session) {
    auto journal = Journal::open(kStore, on("cut", &testing));
    REQUIRE(journal.ok());
    machine.note({Op::Ack, {}, journal.value().size()});  // what a screen shows from now on
    append_to(journal.value(), machine, events * session / 3);
    REQUIRE(journal.value().size() == events * session / 3);
    machine.dead = session == 1;
    { const Journal closed = std::move(journal).value(); }
    machine.dead = false;
  }
}

Verdict reopen(Mount& mount, Files files, std::int64_t acked, std::int64_t attempted) {
  Machine after;
  after.load(files);
  mount.use(after);
  const auto journal = Journal::open(kStore, on("cut"));
  return journal.ok() ? judge(journal.value(), acked, attempted) : Verdict::CannotOpen;
}

// Plays the trace forward and hands every possible disk to `see(files, acked, attempted)`.
template <class See>
void cut_everywhere(World world, const std::vector<Step>& trace, int seeds, int stride,
                    std::int64_t acked, See see) {
  Random random(20250712);
  std::int64_t attempted = acked;
  for (std::size_t k = 0; k < trace.size(); ++k) {
    world.play(trace[k]);
    if (trace[k].op == Op::Attempt) attempted = std::max(attempted, trace[k].at);
    if (trace[k].op == Op::Ack) acked = std::max(acked, trace[k].at);
    attempted = std::max(attempted, acked);
    if (k % static_cast<std::size_t>(stride) != 0) continue;
    for (const Damage damage : kAllDamage) {
      for (int seed = 0; seed < (is_random(damage) ? seeds : 1); ++seed) {
        see(world.cut(damage, random), acked, attempted);
      }
    }
  }
}

Tally tally(const storage::JournalTesting& testing, bool sync_lies, std::int64_t events,
            int seeds) {
  Machine machine;
  Mount mount("cut", machine);
  live(mount, machine, testing, events);
  Tally sum;
  cut_everywhere(World({}, sync_lies), machine.trace, seeds, kSanitized ? 11 : 1, 0,
                 [&](Files files, std::int64_t acked, std::int64_t attempted) {
                   sum.add(reopen(mount, std::move(files), acked, attempted));
                 });
  return sum;
}

void say(const std::string& name, const Tally& t) {
  MESSAGE(name << ": " << t.cuts << " cuts, " << t.unopened << " did not open, " << t.corrupt
               << " corrupt, " << t.lost << " lost acknowledged events");
}

}  // namespace

TEST_CASE("FULL: no power cut at any step loses an acknowledged event") {
  for (const int checkpoint_pages : {20, 60}) {
    const Tally t = tally({false, checkpoint_pages}, false, 81, 5);
    say("FULL, checkpoint every " + std::to_string(checkpoint_pages) + " pages", t);
    CHECK(t.red() == 0);
    CHECK(t.cuts > (kSanitized ? 500 : 7'000));
  }
}

TEST_CASE("control: with synchronous=NORMAL the same harness finds losses") {
  const Tally t = tally({true, 20}, false, 81, 1);
  say("NORMAL", t);
  CHECK(t.lost > 0);
}

TEST_CASE("control: with a disk that lies about flushing the same harness finds losses") {
  const Tally t = tally({false, 20}, true, 18, 1);
  say("lying flush", t);
  CHECK(t.lost > 0);
}

namespace {

// The power fails, and fails again while the journal recovers and goes on.
void cut_recovery(Mount& mount, const Files& files, std::int64_t acked, std::int64_t attempted,
                  Tally& sum) {
  Machine machine;
  machine.load(files);
  machine.recording = true;
  mount.use(machine);
  {
    auto journal = Journal::open(kStore, on("cut"));
    sum.add(journal.ok() ? judge(journal.value(), acked, attempted) : Verdict::CannotOpen);
    if (!journal.ok()) return;
    const std::int64_t shown = journal.value().size();
    machine.note({Op::Ack, {}, shown});
    append_to(journal.value(), machine, shown + 2);
  }
  cut_everywhere(World(files), machine.trace, 1, 1, acked,
                 [&](Files again, std::int64_t now_acked, std::int64_t now_attempted) {
                   const std::int64_t most = std::max(now_attempted, attempted);
                   sum.add(reopen(mount, std::move(again), now_acked, most));
                 });
}

}  // namespace

TEST_CASE("a second power cut during recovery loses nothing either") {
  Machine machine;
  Mount mount("cut", machine);
  const storage::JournalTesting testing{false, 20};
  live(mount, machine, testing, 45);
  Tally sum;
  cut_everywhere(World(), machine.trace, 1, kSanitized ? 211 : 29, 0,
                 [&](const Files& files, std::int64_t acked, std::int64_t attempted) {
                   cut_recovery(mount, files, acked, attempted, sum);
                 });
  say("cut again during recovery", sum);
  CHECK(sum.red() == 0);
  CHECK(sum.cuts > (kSanitized ? 300 : 3'000));
}

}  // namespace power_cut_test
