#include "engine/farm/merge_order.h"

#include <doctest/doctest.h>

#include <algorithm>
#include <random>

#include "engine/words/contradictions.h"
#include "tests/support/evening.h"

namespace merge_order_test {

using namespace evening;

namespace {

// One tablet: what it has read, and the farm it shows.
struct Tablet {
  DeviceId id;
  std::vector<Event> read;
  Clocks clocks;
  Farm farm;

  // False: impossible here.
  bool enter(const Stamp& when, const Body& body) {
    const auto last = farm.last_seq.find(id);
    const std::int64_t seq = last == farm.last_seq.end() ? 1 : last->second + 1;
    for (Event& e : to_come_last(clocks, {{id, seq}, when, body})) {
      if (why_not(farm, e) != Refusal::None) return false;
      clocks.take(e);
      read.push_back(e);
      farm = apply(std::move(farm), e);
    }
    if (clocks.in_doubt()) farm = put_in_order(std::move(farm));
    return true;
  }

  void take_in(const Tablet& other) {
    for (const Event& e : other.read)
      if (std::none_of(read.begin(), read.end(), [&](const Event& r) { return r.ref == e.ref; }))
        read.push_back(e);
    farm = fold_together(read);
    clocks = Clocks(farm.log, farm.branches);
  }
};

Tablet tablet(int n) { return {id<DeviceId>(n), {}, {}, {}}; }

// A yard with three colonies and kit for two, on the first tablet, taken in by the second.
std::pair<Tablet, Tablet> two_tablets() {
  Tablet a = tablet(1), b = tablet(2);
  REQUIRE(a.enter(at(0), YardAdded{yard(), "Alder Bend", {}, "", ""}));
  for (int n = 1; n <= 3; ++n)
    REQUIRE(a.enter(at(1),
                    ColonyAdded{colony(n), yard(), "A" + std::to_string(n), 1, false, {}, n, ""}));
  for (int n = 1; n <= 2; ++n) {
    REQUIRE(a.enter(at(2), KitAdded{vaporizer(n), KitSort::Vaporizer, std::to_string(n)}));
    REQUIRE(a.enter(at(2), KitAdded{cloth(n), KitSort::Cloth, std::to_string(n)}));
  }
  b.take_in(a);
  return {a, b};
}

void open_and_treat(Tablet& t, int walk_number, int seconds, ColonyId which) {
  WalkOpened open;
  open.walk = walk(walk_number);
  open.yard = yard();
  open.rules = rules();
  open.colonies = {which};
  open.vaporizers = {vaporizer(walk_number)};
  open.cloths = {cloth(walk_number)};
  REQUIRE(t.enter(at(seconds), open));
  for (const Protection p : {Protection::Respirator, Protection::EyeProtection, Protection::Gloves,
                             Protection::RinseWater, Protection::NobodyDownwind})
    REQUIRE(t.enter(at(seconds), ProtectionConfirmed{open.walk, p}));
  REQUIRE(t.enter(
      at(seconds + 1),
      VaporizerSet{open.walk, which, vaporizer(walk_number), {}, {}, Mass{1000}, 1, false}));
}

}  // namespace

TEST_CASE("events come by wall clock, never before an earlier one of their tablet") {
  const auto note = [](int device, std::int64_t seq, int seconds) {
    return Event{{id<DeviceId>(device), seq}, at(seconds), NoteWritten{{}, {}, "n"}};
  };
  Log arrived;
  for (Event& e : std::vector{note(2, 1, 5), note(1, 2, 3), note(1, 1, 9), note(2, 2, 20)})
    arrived.push_back(std::move(e));
  std::vector<std::pair<int, std::int64_t>> seen;
  const Log ordered = in_common_order(arrived);
  for (const Entry& e : ordered) seen.emplace_back(e.event.ref.device.bytes[15], e.event.ref.seq);
  // The first tablet's clock fell from 9 to 3 s: its second event stays behind its first.
  CHECK(seen == std::vector<std::pair<int, std::int64_t>>{{2, 1}, {1, 1}, {1, 2}, {2, 2}});
}

TEST_CASE("a tablet whose clock is behind writes after what it has taken in") {
  auto [a, b] = two_tablets();
  REQUIRE(b.enter(at(-86'400), ColonyChanged{colony(1), "B1", {}, {}, {}, {}, {}}));
  REQUIRE(std::holds_alternative<ClockFollowed>(b.read[b.read.size() - 2].body));
  a.take_in(b);
  CHECK(a.farm.colonies.at(colony(1)).name == "B1");
  CHECK(contradictions(a.farm).empty());
}

TEST_CASE("what a tablet shows after each entry is what anybody reads from the same entries") {
  std::mt19937 random(20'261'126);  // fixed: the same run each time
  const auto pick = [&](int below) {
    return static_cast<int>(random() % static_cast<unsigned>(below));
  };
  for (int run = 0; run < 40; ++run) {
    auto tablets = two_tablets();
    Tablet& a = tablets.first;
    Tablet& b = tablets.second;
    Tablet c = tablet(3);
    Tablet* all[] = {&a, &b, &c};
    for (int step = 0; step < 60; ++step) {
      Tablet& t = *all[pick(3)];
      const Stamp when = at(10 + pick(4000));  // clocks that jump about
      switch (pick(7)) {
        case 0:
          t.take_in(*all[pick(3)]);
          break;
        case 1:
          t.enter(when, ColonyChanged{colony(1 + pick(3)), {}, 1 + pick(3), {}, {}, {}, {}});
          break;
        case 2:
          t.enter(when,
                  CountTaken{colony(1 + pick(3)), local_date(when), {}, pick(9), 300, {}, ""});
          break;
        case 3:
          t.enter(when, ColonyLost{colony(1 + pick(3)), "robbed"});
          break;
        case 4:
          if (!t.read.empty())
            t.enter(when,
                    EntryStruck{
                        t.read[static_cast<std::size_t>(pick(static_cast<int>(t.read.size())))].ref,
                        "slip"});
          break;
        case 5:
          t.enter(when, NoteWritten{yard(), {}, "note"});
          break;
        default:
          t.enter(when,
                  ColonyAdded{
                      id<ColonyId>(1000 + run * 100 + step), yard(), "N", 1, false, {}, {}, ""});
      }
      REQUIRE(state_hash(t.farm) == state_hash(fold_together(t.read)));
    }
    // Any order, any portions, any repeats: the same farm.
    Tablet x = tablet(8), y = tablet(9);
    for (Tablet* t : {&a, &b, &c}) x.take_in(*t);
    for (Tablet* t : {&c, &a, &c, &b, &a}) y.take_in(*t);
    std::shuffle(x.read.begin(), x.read.end(), random);
    CHECK(state_hash(fold_together(x.read)) == state_hash(y.farm));
  }
}

TEST_CASE("two tablets that treat one colony on one day contradict until it is settled") {
  auto [a, b] = two_tablets();
  open_and_treat(a, 1, 100, colony(1));
  open_and_treat(b, 2, 700, colony(1));
  a.take_in(b);
  const auto found = contradictions(a.farm);
  REQUIRE(found.size() == 1);
  CHECK(found[0].what == Contradiction::TreatedTwice);
  CHECK(words(found[0], a.farm).find("A1") != std::string::npos);
  CHECK(a.farm.colonies.at(colony(1)).vapor->sum == Mass{2000});
  REQUIRE(a.enter(at(900), ContradictionSettled{found[0].sides, "both were given"}));
  CHECK(contradictions(a.farm).empty());
  b.take_in(a);
  CHECK(contradictions(b.farm).empty());
}

TEST_CASE(
    "a treatment of a colony that another tablet struck unread counts, and the strike is listed") {
  auto tablets = two_tablets();
  Tablet& a = tablets.first;
  Tablet& b = tablets.second;
  const auto added = std::find_if(a.read.begin(), a.read.end(), [](const Event& e) {
    const auto* c = std::get_if<ColonyAdded>(&e.body);
    return c != nullptr && c->colony == colony(3);
  });
  REQUIRE(a.enter(at(50), EntryStruck{added->ref, "not ours"}));
  open_and_treat(b, 2, 100, colony(3));
  a.take_in(b);
  CHECK(find_stop(a.farm.walks.at(walk(2)), colony(3))->treatments.size() == 1);
  const auto found = contradictions(a.farm);
  REQUIRE(found.size() == 1);
  CHECK(found[0].what == Contradiction::StruckUnread);
}

TEST_CASE("one name given by two tablets is listed; one tablet alone never contradicts itself") {
  auto [a, b] = two_tablets();
  CHECK(contradictions(a.farm).empty());
  REQUIRE(a.enter(at(10), ColonyAdded{colony(11), yard(), "A9", 1, false, {}, {}, ""}));
  REQUIRE(b.enter(at(20), ColonyAdded{colony(12), yard(), "A9", 1, false, {}, {}, ""}));
  a.take_in(b);
  REQUIRE(contradictions(a.farm).size() == 1);
  CHECK(contradictions(a.farm)[0].what == Contradiction::NamedTwice);
}

}  // namespace merge_order_test
