// Sides of a fork in the farm: names, clocks, what one side says of its own entries, striking one.
#include "engine/farm/forks.h"

#include <doctest/doctest.h>

#include <algorithm>

#include "engine/events/entry_refs.h"
#include "engine/farm/merge_order.h"
#include "engine/words/contradictions.h"
#include "tests/support/evening.h"

namespace forks_test {

using namespace evening;

namespace {

const DeviceId kTablet = id<DeviceId>(9), kOne = id<DeviceId>(3), kTwo = id<DeviceId>(4),
               kOnOne = id<DeviceId>(5), kOffOne = id<DeviceId>(6), kOther = id<DeviceId>(20);

// The tablet forked from 10 on, and one of its sides again from 15 on.
const Branches kForks = {{kOne, kTablet, kTablet, 10},
                         {kTwo, kTablet, kTablet, 10},
                         {kOnOne, kTablet, kOne, 15},
                         {kOffOne, kTablet, kOne, 15}};

// Entries of one hand, numbered on.
struct Hand {
  DeviceId id;
  std::int64_t seq = 0;
  std::vector<Event>& into;

  EntryRef enter(const Stamp& when, Body body) {
    into.push_back({{id, ++seq}, when, std::move(body)});
    return into.back().ref;
  }
};

WalkOpened opens(int n, std::vector<ColonyId> colonies) {
  WalkOpened open;
  open.walk = walk(n);
  open.yard = yard();
  open.rules = rules();
  open.colonies = std::move(colonies);
  open.vaporizers = {vaporizer(1)};
  return open;
}

VaporizerSet sets(int n, ColonyId which) {
  return {walk(n), which, vaporizer(1), {}, {}, Mass{1000}, 1, false};
}

// What both sides have: a yard, two colonies, kit; five entries.
Hand shared(std::vector<Event>& events) {
  Hand hand{kTablet, 0, events};
  hand.enter(at(0), YardAdded{yard(), "Alder Bend", {}, "", ""});
  for (int n = 1; n <= 2; ++n)
    hand.enter(at(1), ColonyAdded{colony(n), yard(), "A" + std::to_string(n), 1, false, {}, n, ""});
  hand.enter(at(2), KitAdded{vaporizer(1), KitSort::Vaporizer, "1"});
  hand.enter(at(3), KitAdded{cloth(1), KitSort::Cloth, "1"});
  return hand;
}

Branches forked_at(std::int64_t from) {
  return {{kOne, kTablet, kTablet, from}, {kTwo, kTablet, kTablet, from}};
}

bool has(const std::vector<Contradicted>& found, Contradiction what) {
  return std::any_of(found.begin(), found.end(), [&](const auto& c) { return c.what == what; });
}

}  // namespace

TEST_CASE("a number belongs to the side, or to what it goes on from") {
  struct Row {
    std::string name;
    DeviceId side;
    std::int64_t seq;
    DeviceId want;
  };
  const Row rows[] = {{"before the fork", kOne, 9, kTablet},
                      {"the first of the side", kOne, 10, kOne},
                      {"of the side it goes on from", kOnOne, 14, kOne},
                      {"its own", kOnOne, 15, kOnOne},
                      {"before both forks", kOffOne, 1, kTablet},
                      {"no side at all", kTablet, 12, kTablet}};
  for (const Row& r : rows) {
    INFO(r.name);
    CHECK(side_at(kForks, r.side, r.seq) == r.want);
  }
  CHECK(depth(kForks, kTablet) == 0);
  CHECK(depth(kForks, kOnOne) == 2);
  CHECK(one_line(kForks, kOnOne, kTablet));
  CHECK(one_line(kForks, kOne, kOffOne));
  CHECK_FALSE(one_line(kForks, kOnOne, kOffOne));
  CHECK_FALSE(one_line(kForks, kOnOne, kTwo));
}

TEST_CASE("what a side says of its own tablet's entries, it says of its own side's") {
  const Event strike{{kTablet, 16}, at(0), EntryStruck{{kTablet, 12}, "no"}};
  const auto of_side = on_side(strike, kOnOne, kForks);
  CHECK(of_side.ref == EntryRef{kOnOne, 16});
  CHECK(std::get<EntryStruck>(of_side.body).entry == EntryRef{kOne, 12});
  const Event settled{
      {kTablet, 11},
      at(0),
      ContradictionSettled{{{kTablet, 3}, {kTablet, 10}, {kOther, 10}}, "both happened"}};
  CHECK(std::get<ContradictionSettled>(on_side(settled, kTwo, kForks).body).entries ==
        std::vector<EntryRef>{{kTablet, 3}, {kTwo, 10}, {kOther, 10}});
  const Event corrected{
      {kTablet, 17},
      at(0),
      EntryCorrected{{kTablet, 15}, "no", Replacement{NoteWritten{{}, {}, "so"}}}};
  CHECK(std::get<EntryCorrected>(on_side(corrected, kOffOne, kForks).body).entry ==
        EntryRef{kOffOne, 15});
}

TEST_CASE("a side comes after what it goes on from, whatever its clock says") {
  std::vector<Event> events;
  Hand trunk = shared(events);
  trunk.enter(at(500), NoteWritten{{}, {}, "last that both have"});
  Hand one{kOne, 6, events}, two{kTwo, 6, events};
  one.enter(at(10), NoteWritten{{}, {}, "by a clock that fell back"});
  one.enter(at(11), NoteWritten{{}, {}, "the next"});
  two.enter(at(500), NoteWritten{{}, {}, "at the same moment"});
  std::vector<std::string> said;
  for (const Entry& e : fold_together(events, forked_at(7)).log)
    if (const auto* n = std::get_if<NoteWritten>(&e.event.body)) said.push_back(n->text);
  CHECK(said == std::vector<std::string>{"last that both have", "by a clock that fell back",
                                         "at the same moment", "the next"});
}

TEST_CASE("a fork that comes to light moves no entry of one side") {
  std::vector<Event> events;
  shared(events);
  Hand one{kTablet, 5, events}, other{id<DeviceId>(2), 0, events};
  for (int n = 0; n < 3; ++n) one.enter(at(-100 + n), NoteWritten{{}, {}, std::to_string(n)});
  other.enter(at(-200), ClockFollowed{at(3).at.time_since_epoch().count() - 1});
  other.enter(at(-200), NoteWritten{{}, {}, "other"});
  const auto order = [](const Farm& farm) {
    std::vector<std::string> said;
    for (const Entry& e : farm.log)
      if (const auto* n = std::get_if<NoteWritten>(&e.event.body)) said.push_back(n->text);
    return said;
  };
  const auto before = order(fold_together(events));
  for (Event& e : events)
    if (e.ref.device == kTablet && e.ref.seq > 5) e.ref.device = kOne;
  Hand two{kTwo, 5, events};
  two.enter(at(900), NoteWritten{{}, {}, "later"});
  auto after = order(fold_together(events, forked_at(6)));
  REQUIRE(after.back() == "later");
  after.pop_back();
  CHECK(after == before);
}

TEST_CASE("who knew of no fork means the only side that had the number by then") {
  std::vector<Event> events;
  shared(events);
  Hand one{kOne, 5, events}, two{kTwo, 5, events}, other{kOther, 0, events};
  const EntryRef first = one.enter(at(10), NoteWritten{{}, {}, "first"});
  one.enter(at(11), NoteWritten{{}, {}, "more"});
  two.enter(at(100), NoteWritten{{}, {}, "second"});
  const EntryRef told = other.enter(at(50), EntryStruck{{kTablet, 6}, "wrong"});
  const EntryRef only = other.enter(at(200), EntryStruck{{kTablet, 7}, "wrong"});
  const EntryRef either = other.enter(at(201), EntryStruck{{kTablet, 6}, "which?"});
  const Farm farm = fold_together(events, forked_at(6));
  CHECK(find_entry(farm, first)->struck->by == told);
  CHECK(find_entry(farm, {kOne, 7})->struck->by == only);
  CHECK_FALSE(find_entry(farm, {kTwo, 6})->struck);
  CHECK(find_entry(farm, either)->fallen == Refusal::NoSuchEntry);
  CHECK(has(contradictions(farm), Contradiction::DoesNotFit));
}

TEST_CASE("a walk that both sides had, all done, is closed by the next one of a side") {
  std::vector<Event> events;
  Hand trunk = shared(events);
  trunk.enter(at(10), opens(1, {colony(1)}));
  trunk.enter(at(11), ColonyPassedOver{walk(1), colony(1), PassReason::DeadOut, ""});
  Hand one{kOne, 7, events}, two{kTwo, 7, events};
  one.enter(at(20), opens(2, {colony(2)}));
  two.enter(at(30), NoteWritten{{}, {}, "n"});
  const Farm farm = fold_together(events, forked_at(8));
  CHECK(farm.walks.at(walk(1)).closed);
  CHECK(farm.walk_under_way == std::map<DeviceId, WalkId>{{kOne, walk(2)}});
}

TEST_CASE(
    "one hand treats a colony twice on both sides of a fork's first number; two hands after") {
  std::vector<Event> events;
  Hand trunk = shared(events);
  trunk.enter(at(10), opens(1, {colony(1), colony(2)}));
  for (const Protection p : {Protection::Respirator, Protection::EyeProtection, Protection::Gloves,
                             Protection::RinseWater, Protection::NobodyDownwind})
    trunk.enter(at(11), ProtectionConfirmed{walk(1), p});
  trunk.enter(at(20), sets(1, colony(1)));
  Hand one{kOne, 12, events}, two{kTwo, 12, events};
  EnteredLate again;
  again.walk = walk(7), again.yard = yard(), again.colony = colony(1), again.rules = rules();
  again.on = local_date(at(60)), again.dose = {1000}, again.brood_boxes = 1;
  one.enter(at(60), again);
  two.enter(at(70), NoteWritten{{}, {}, "n"});
  auto found = contradictions(fold_together(events, forked_at(13)));
  CHECK(has(found, Contradiction::Forked));
  CHECK_FALSE(has(found, Contradiction::TreatedTwice));
  again.walk = walk(8);
  two.enter(at(80), again);
  found = contradictions(fold_together(events, forked_at(13)));
  CHECK(has(found, Contradiction::TreatedTwice));
}

TEST_CASE("striking a side takes back all of it that nobody else stands on, the last one first") {
  std::vector<Event> events;
  shared(events);
  Hand one{kOne, 5, events}, two{kTwo, 5, events}, other{kOther, 0, events};
  one.enter(at(10), ColonyAdded{colony(3), yard(), "A3", 1, false, {}, 3, ""});
  one.enter(at(11), ColonyAdded{colony(4), yard(), "A4", 1, false, {}, 4, ""});
  one.enter(at(12), CountTaken{colony(3), local_date(at(0)), CountMethod::AlcoholWash, 3, 300, {}});
  one.enter(at(13), EntryStruck{{kTablet, 5}, "no"});
  two.enter(at(14), NoteWritten{{}, {}, "n"});
  other.enter(at(20),
              CountTaken{colony(4), local_date(at(0)), CountMethod::AlcoholWash, 5, 300, {}});
  Farm farm = fold_together(events, forked_at(6));
  CHECK(tablets(farm) == 2);
  CHECK(side_of(farm, kOne).entries == 4);
  CHECK(side_of(farm, kOne).end.at == at(13).at);
  CHECK(to_strike(farm, kOne) == 3);
  const auto strikes = strikes_of_side(farm, kOne, "a copy", kOther, at(30));
  REQUIRE(strikes.size() == 2);  // A4 carries the other tablet's count
  for (const Body& body : strikes) {
    const Event e{{kOther, farm.last_seq[kOther] + 1}, at(30), body};
    farm = apply(std::move(farm), e);
  }
  CHECK(farm.counts.size() == 1);
  CHECK_FALSE(farm.colonies.contains(colony(3)));
  CHECK(farm.colonies.contains(colony(4)));
  CHECK(to_strike(farm, kOne) == 1);
  CHECK(strikes_of_side(farm, kOne, "again", kOther, at(31)).empty());
}

}  // namespace forks_test
