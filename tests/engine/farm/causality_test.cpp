// What a tablet had read when it wrote an entry: by numbers, by what it names, by old clocks.
#include "engine/farm/causality.h"

#include "engine/farm/merge_order.h"
#include "tests/support/evening.h"

namespace causality_test {

using namespace evening;

namespace {

const DeviceId kA = id<DeviceId>(1), kB = id<DeviceId>(2), kC = id<DeviceId>(3),
               kSide = id<DeviceId>(11), kOtherSide = id<DeviceId>(12);

struct Written {
  std::vector<Event> events;
  std::map<DeviceId, std::int64_t> last;

  EntryRef note(DeviceId by, int seconds, Body body = NoteWritten{{}, {}, "n"}) {
    events.push_back({{by, ++last[by]}, at(seconds), std::move(body)});
    return events.back().ref;
  }
  EntryRef reads(DeviceId by, int seconds, std::vector<EntryRef> what) {
    return note(by, seconds, ClockFollowed{0, std::move(what)});
  }
};

std::int64_t clock_at(int seconds) { return at(seconds).at.time_since_epoch().count(); }

}  // namespace

TEST_CASE("a tablet had read its own earlier entries, and no later ones") {
  Written w;
  const EntryRef first = w.note(kA, 0), second = w.note(kA, 1);
  const Causality c(fold_together(w.events));
  CHECK(c.had_read(second, first));
  CHECK_FALSE(c.had_read(first, second));
}

TEST_CASE("what was read is told by numbers, whatever the clocks say") {
  Written w;
  const EntryRef early = w.note(kA, 500), late = w.note(kA, 501);
  const EntryRef before = w.note(kB, 900);
  w.reads(kB, 100, {early});
  const EntryRef after = w.note(kB, 101);
  const Causality c(fold_together(w.events));
  CHECK_FALSE(c.had_read(before, early));
  CHECK(c.had_read(after, early));
  CHECK_FALSE(c.had_read(after, late));
  CHECK_FALSE(c.had_read(late, before));
}

TEST_CASE("what those had read that a tablet read, it had read as well") {
  Written w;
  const EntryRef first = w.note(kA, 0);
  w.reads(kB, 10, {first});
  const EntryRef second = w.note(kB, 11);
  w.reads(kC, 20, {second});
  const EntryRef third = w.note(kC, 21);
  const Causality c(fold_together(w.events));
  CHECK(c.had_read(third, first));
  CHECK_FALSE(c.had_read(second, third));
}

TEST_CASE("who strikes an entry has read it") {
  Written w;
  const EntryRef first = w.note(kA, 0), second = w.note(kA, 1);
  const EntryRef strike = w.note(kB, 10, EntryStruck{first, "no"});
  const Causality c(fold_together(w.events));
  CHECK(c.had_read(strike, first));
  CHECK_FALSE(c.had_read(strike, second));
}

TEST_CASE("entries of earlier versions had read what their clock came after") {
  Written w;
  const EntryRef early = w.note(kA, 100), late = w.note(kA, 300);
  w.note(kB, 10, ClockFollowed{clock_at(200)});
  const EntryRef after = w.note(kB, 11);
  const Causality c(fold_together(w.events));
  CHECK(c.had_read(after, early));
  CHECK_FALSE(c.had_read(after, late));
}

TEST_CASE("a side of a fork had read what it goes on from, and nothing of the other side") {
  Written w;
  const EntryRef trunk = w.note(kA, 0);
  w.last[kSide] = w.last[kOtherSide] = 1;
  const EntryRef one = w.note(kSide, 10), two = w.note(kOtherSide, 20);
  const Branches forks = {{kSide, kA, kA, 2}, {kOtherSide, kA, kA, 2}};
  const Causality c(fold_together(w.events, forks));
  CHECK(c.had_read(one, trunk));
  CHECK(c.had_read(two, trunk));
  CHECK_FALSE(c.had_read(two, one));
}

TEST_CASE("readings that go in a circle come to an end") {
  Written w;
  const EntryRef a = w.reads(kA, 0, {{kB, 1}}), b = w.reads(kB, 0, {{kA, 1}});
  const Causality c(fold_together(w.events));
  CHECK(c.had_read(a, b));
  CHECK_FALSE(c.had_read(a, {kC, 1}));
}

}  // namespace causality_test
