// The power fails while the other side of a fork comes in: all of it is there, or none.
#include <doctest/doctest.h>

#include "storage/journal/fork_rows.h"
#include "tests/support/crash_judge.h"

namespace fork_cut_test {

using namespace cut;
using storage::Journal;
using storage::Sealed;

namespace {

constexpr std::int64_t kShared = 6, kOwn = 9, kTheirs = 14;

// What a copy of the tablet wrote after the shared ones.
std::vector<Sealed> other_side() {
  std::vector<Sealed> all(expected().begin(), expected().begin() + kShared);
  for (storage::Record r : fixture::records(kShared + 1, kTheirs)) {
    r.boot_id = "copy";
    all.push_back(storage::seal(r, all.back().hash));
  }
  return all;
}

Journal open() {
  auto journal = Journal::open(kStore, on("cut"));
  REQUIRE(journal.ok());
  return std::move(journal).value();
}

// As before the other side came, or as after it; nothing between.
bool whole_or_not(const Journal& journal, bool acked) {
  const auto sides = static_cast<std::int64_t>(journal.sides().size());
  const bool came = sides == kTheirs - kShared;
  const bool renewed = journal.device() != fixture::kTablet;
  return !journal.damage() && journal.size() == kOwn && journal.verify().ok() &&
         (came || (sides == 0 && !acked)) && renewed == came;
}

}  // namespace

TEST_CASE("no power cut leaves a part of another side, or the old id beside it") {
  Machine machine;
  Mount mount("cut", machine);
  { REQUIRE(open().append_all(fixture::records(1, kOwn)).ok()); }
  const Files before = machine.content();
  machine.recording = true;
  {
    Journal journal = open();
    REQUIRE(journal.adopt_all(other_side()).ok());
    machine.note({Op::Ack, {}, 1});
    REQUIRE(whole_or_not(journal, true));
  }
  World world(before);
  Random random(20261127);
  bool acked = false;
  int cuts = 0, bad = 0, with = 0;
  for (const Step& step : machine.trace) {
    world.play(step);
    acked = acked || step.op == Op::Ack;
    for (const Damage damage : kAllDamage)
      for (int seed = 0; seed < (is_random(damage) ? 5 : 1); ++seed, ++cuts) {
        Machine after;
        after.load(world.cut(damage, random));
        mount.use(after);
        const auto journal = Journal::open(kStore, on("cut"));
        bad += !journal.ok() || !whole_or_not(journal.value(), acked);
        with += journal.ok() && !journal.value().sides().empty();
      }
  }
  MESSAGE(cuts << " cuts, " << with << " with the other side");
  CHECK(bad == 0);
  CHECK(with > 0);
  CHECK(with < cuts);
}

TEST_CASE("a full disk or an error at any call takes in all of another side, or nothing") {
  for (const FaultKind kind : {FaultKind::IoError, FaultKind::Full}) {
    int struck = 0;
    for (int n = 0; n < 400; ++n) {
      Machine machine;
      Mount mount("cut", machine);
      { REQUIRE(open().append_all(fixture::records(1, kOwn)).ok()); }
      bool acked = false;
      {
        Journal journal = open();
        machine.fault = kind;
        machine.fault_in = n;
        acked = journal.adopt_all(other_side()).ok();
        CHECK((acked ? whole_or_not(journal, true) : journal.sides().empty()));
      }
      machine.fault = FaultKind::None;
      INFO("call " << n);
      CHECK(whole_or_not(open(), acked));
      if (!machine.struck) break;
      ++struck;
    }
    CHECK(struck > 2);
  }
}

}  // namespace fork_cut_test
