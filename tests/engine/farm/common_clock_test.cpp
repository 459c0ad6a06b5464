// The common order under wrong clocks: what was read decides, and no wall clock poisons it.
#include <random>

#include "engine/farm/causality.h"
#include "engine/farm/merge_order.h"
#include "tests/support/evening.h"

namespace common_clock_test {

using namespace evening;

namespace {

// One tablet: what it has read, and the farm it shows.
struct Tablet {
  DeviceId id;
  Farm farm{};
  Clocks clocks{};

  void enter(const Stamp& when, const Body& body) {
    const auto last = farm.last_seq.find(id);
    const std::int64_t seq = last == farm.last_seq.end() ? 1 : last->second + 1;
    const auto events = to_come_last(clocks, {{id, seq}, when, body});
    for (const Event& e : events) {
      REQUIRE(why_not(farm, e) == Refusal::None);
      farm = apply(std::move(farm), e);
      clocks.take(e);
    }
    if (events.size() > 1 && clocks.in_doubt()) farm = put_in_order(std::move(farm));
  }
  void take_in(const Tablet& other) {
    std::vector<Event> fresh;
    other.farm.log.scan(0, [&](std::size_t, const Entry& e) {
      if (!farm.log.find(e.event.ref)) fresh.push_back(e.event);
    });
    farm = take_together(std::move(farm), std::move(fresh));
    clocks = Clocks(farm.log, farm.branches);
  }
  void name(const Stamp& when, const std::string& text) {
    enter(when, ColonyChanged{colony(1), text, {}, {}, {}, {}, {}});
  }
  [[nodiscard]] std::string name() const { return farm.colonies.at(colony(1)).name; }
};

Stamp in_year(int year, int seconds = 0) {
  Stamp s = at(seconds);
  s.at += days(Date{std::chrono::year{year}, std::chrono::month{8}, std::chrono::day{14}}) -
          days(Date{std::chrono::year{2026}, std::chrono::month{8}, std::chrono::day{14}});
  return s;
}

// Three tablets that all know one colony. Ties would go to the one with the highest id: the last.
struct Three {
  Tablet a{id<DeviceId>(1)}, b{id<DeviceId>(3)}, c{id<DeviceId>(2)};

  Three() {
    a.enter(at(0), YardAdded{yard(), "Alder Bend", {}, "", ""});
    a.enter(at(1), ColonyAdded{colony(1), yard(), "A1", 1, false, {}, 1, ""});
    b.take_in(a), c.take_in(a);
    b.enter(at(2), NoteWritten{yard(), {}, "b is here"});
    c.enter(at(3), NoteWritten{yard(), {}, "c is here"});
    all();
  }
  void all() { a.take_in(b), a.take_in(c), b.take_in(a), c.take_in(a); }
  void same() const {
    CHECK(state_hash(a.farm) == state_hash(b.farm));
    CHECK(state_hash(b.farm) == state_hash(c.farm));
    CHECK(a.name() == b.name());
  }
};

}  // namespace

TEST_CASE("an entry of the year 9999 decides nothing about what comes after it") {
  Three t;
  t.a.enter(in_year(9999), NoteWritten{yard(), {}, "a clock gone wrong"});
  t.all();
  t.b.name(at(100), "first");  // ties would make this one the last
  t.c.name(at(200), "last");
  t.all();
  t.same();
  CHECK(t.a.name() == "last");
}

TEST_CASE("who has not read the entry of the year 9999 may still be the last") {
  Three t;
  t.a.name(in_year(9999), "wrong");
  t.b.take_in(t.a);
  t.b.name(at(100), "first");
  t.c.name(at(200), "last");
  t.all();
  t.same();
  CHECK(t.a.name() == "last");
}

TEST_CASE("a tablet whose clock is years ahead does not decide who was last") {
  for (const int year : {2027, 2031, 2100}) {
    INFO(year);
    Three t;
    t.a.name(in_year(year, 50), "ahead");
    t.b.take_in(t.a);
    t.b.name(at(100), "first");
    t.c.name(at(200), "last");
    t.all();
    t.same();
    CHECK(t.b.name() == "last");
    t.a.name(in_year(year, 300), "later");  // it has read all of it
    t.all();
    CHECK(t.c.name() == "later");
    t.a.name(in_year(year, 400), "ahead again");
    t.b.name(at(500), "truly last");
    t.all();
    t.same();
    CHECK(t.c.name() == "truly last");
  }
}

TEST_CASE("a tablet whose clock is years behind writes after what it has read, and moves nobody") {
  Three t;
  t.a.name(at(100), "before");
  t.b.take_in(t.a);
  t.b.name(in_year(1970), "after");
  t.all();
  t.same();
  CHECK(t.c.name() == "after");
  t.a.name(at(200), "first");
  t.c.name(at(300), "last");
  t.all();
  t.same();
  CHECK(t.a.name() == "last");
}

TEST_CASE("a clock that was years ahead and was set right is believed again") {
  Three t;
  t.a.name(in_year(2031), "ahead");
  t.all();
  t.b.enter(at(100), NoteWritten{yard(), {}, "read"});
  t.all();
  t.c.name(at(200), "first");
  t.a.name(at(300), "last");
  t.all();
  t.same();
  CHECK(t.b.name() == "last");
}

TEST_CASE("two tablets that disagree by years still agree on the order, and are both named") {
  Tablet a{id<DeviceId>(1)}, b{id<DeviceId>(2)};
  a.enter(in_year(2031), YardAdded{yard(), "Alder Bend", {}, "", ""});
  a.enter(in_year(2031), ColonyAdded{colony(1), yard(), "A1", 1, false, {}, 1, ""});
  b.take_in(a);
  b.name(at(0), "after");
  a.take_in(b);
  CHECK(state_hash(a.farm) == state_hash(b.farm));
  CHECK(a.name() == "after");
  REQUIRE(a.clocks.wrong().size() == 1);
  CHECK(a.clocks.wrong()[0].entry.device == a.id);
  REQUIRE(a.clocks.wrong()[0].or_else);
  CHECK(a.clocks.wrong()[0].or_else->device == b.id);
}

TEST_CASE("whose clock is wrong is told apart from whose clock is right") {
  struct Row {
    std::string name;
    int year;
  };
  for (const Row& r :
       {Row{"impossible", 9999}, Row{"ahead", 2031}, Row{"before the program", 1970}}) {
    INFO(r.name);
    Three t;
    t.a.name(in_year(r.year), "wrong");
    t.all();
    t.b.name(at(100), "b"), t.c.name(at(200), "c");
    t.all();
    REQUIRE(t.b.clocks.wrong().size() == 1);
    CHECK(t.b.clocks.wrong()[0].entry.device == t.a.id);
    CHECK_FALSE(t.b.clocks.wrong()[0].or_else);
  }
}

TEST_CASE("under any clocks: one order for all, each tablet's own, and after what it had read") {
  std::mt19937 random(20'261'130);  // fixed: the same run each time
  const auto pick = [&](int below) {
    return static_cast<int>(random() % static_cast<unsigned>(below));
  };
  const std::int64_t extremes[] = {std::numeric_limits<std::int64_t>::min(), -1,
                                   std::numeric_limits<std::int64_t>::max(), 253'402'300'799'999,
                                   9'223'372'036'854};
  const auto when = [&](int tablet) {
    Stamp s = at(pick(100'000));
    if (tablet == 1) s = in_year(2031, pick(100'000));
    if (tablet == 2 && pick(3) == 0) s = in_year(1970, pick(1000));
    if (pick(12) == 0) s.at = Utc{Ms{extremes[pick(5)]}};
    if (pick(12) == 0) s = in_year(1890 + pick(400), pick(1000));
    return s;
  };
  for (int run = 0; run < 60; ++run) {
    std::vector<Tablet> tablets;
    for (int n = 0; n < 4; ++n) tablets.push_back({id<DeviceId>(1 + (n * 3 + run) % 7)});
    for (int step = 0; step < 60; ++step) {
      const int n = pick(4);
      Tablet& t = tablets[static_cast<std::size_t>(n)];
      if (pick(3) == 0)
        t.take_in(tablets[static_cast<std::size_t>(pick(4))]);
      else
        t.enter(when(n), NoteWritten{{}, {}, std::to_string(step)});
      std::vector<Event> events;
      for (const Entry& e : t.farm.log) events.push_back(e.event);
      std::shuffle(events.begin(), events.end(), random);
      REQUIRE(state_hash(t.farm) == state_hash(fold_together(events)));
    }
    for (Tablet& t : tablets)
      for (const Tablet& other : tablets) t.take_in(other);
    const Causality causality(tablets[0].farm);
    const Log& log = tablets[0].farm.log;
    for (std::size_t i = 0; i < log.size(); ++i)
      for (std::size_t k = i + 1; k < log.size(); ++k)
        REQUIRE_FALSE(causality.had_read(log[i]->event.ref, log[k]->event.ref));
    for (const Tablet& t : tablets) CHECK(state_hash(t.farm) == state_hash(tablets[0].farm));
  }
}

}  // namespace common_clock_test
